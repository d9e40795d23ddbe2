import { View } from '@react-pdf/renderer'
import { Figures, PaperFile, type PaperIssue, Sheet, Words } from './paper'
import { style } from './style'

export type Trust = 'exact' | 'mechanics' | 'screening'

/** One number and where it came from. Values are text, already in the reader's units. */
export interface NumberChain {
  readonly name: string
  readonly valueText: string
  readonly formula: string
  readonly inputs: readonly { readonly name: string; readonly valueText: string; readonly from: string }[]
  readonly source: string
  readonly trust: Trust
  readonly note?: string
}

export interface NumbersData extends PaperIssue {
  readonly shopName: string
  readonly belongsTo: string
  readonly modelVersion: string
  readonly defaultsUsed: readonly string[]
  readonly chains: readonly NumberChain[]
}

const TRUST_TEXT: Readonly<Record<Trust, string>> = {
  exact: 'exact: geometry, statics or arithmetic',
  mechanics: 'mechanics: textbook beam plasticity, within about 10 percent with certified material values',
  screening: 'screening: says which way and roughly how far; a trial piece decides',
}

/** The appendix that answers, for each number, where it came from and how far to trust it. */
export function NumbersDocument({ data }: { data: NumbersData }) {
  return (
    <PaperFile title={`Where the numbers come from: ${data.belongsTo}`} author={data.shopName} issue={data}>
      <Sheet issue={data} name={`${data.shopName} · Numbers, ${data.belongsTo}`}>
        <View style={style.heavyRule}>
          <Words style={style.title}>Where the numbers come from</Words>
          <Words>{`${data.belongsTo} · model ${data.modelVersion}`}</Words>
        </View>
        <Words style={{ ...style.small, marginTop: 3 }}>
          {data.defaultsUsed.length === 0
            ? 'No default was used.'
            : `Defaults used: ${data.defaultsUsed.join(', ')}.`}
        </Words>
        {data.chains.map((chain, index) => (
          <ChainBlock key={`${index}-${chain.name}`} chain={chain} />
        ))}
      </Sheet>
    </PaperFile>
  )
}

function ChainBlock({ chain }: { chain: NumberChain }) {
  return (
    <View style={{ ...style.rule, paddingVertical: 4 }} wrap={chain.inputs.length > 20}>
      <View style={{ ...style.row, justifyContent: 'space-between' }}>
        <Words style={{ fontSize: 10, fontWeight: 600, flex: 1 }}>{chain.name}</Words>
        <Figures style={{ fontSize: 11, fontWeight: 600 }}>{chain.valueText}</Figures>
      </View>
      <Figures style={{ fontSize: 8.5, marginVertical: 1.5 }}>{chain.formula}</Figures>
      {chain.inputs.map((input, index) => (
        <View key={`${index}-${input.name}`} style={{ ...style.row, paddingLeft: 10 }}>
          <Words style={{ flex: 4, fontSize: 8 }}>{input.name}</Words>
          <Figures style={{ flex: 2.4, fontSize: 8, textAlign: 'right', paddingRight: 8 }}>
            {input.valueText}
          </Figures>
          <Words style={{ flex: 4, fontSize: 8 }}>{input.from}</Words>
        </View>
      ))}
      <Words
        style={{ fontSize: 7.5, marginTop: 1.5 }}
      >{`Source: ${chain.source}. Trust: ${TRUST_TEXT[chain.trust]}.${chain.note ? ` ${chain.note}` : ''}`}</Words>
    </View>
  )
}
