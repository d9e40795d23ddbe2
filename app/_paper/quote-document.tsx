import { View } from '@react-pdf/renderer'
import { formatMoney, formatPercent } from '@/lib/core/format'
import { type Addressee, LetterHead, type Letterhead, Statements } from './letter-head'
import { Facts, Figures, Heading, PaperFile, type PaperIssue, Sheet, Words, WriteBoxes } from './paper'
import { ScanCode } from './qr'
import { style } from './style'

export interface QuoteLine {
  readonly lineNumber: number
  readonly partNumber: string
  readonly partRevision: string
  readonly description: string
  readonly note?: string
  readonly breaks: readonly {
    readonly quantityPieces: number
    readonly unitPriceCents: number
    readonly amountCents: number
    readonly leadTimeText: string
  }[]
}

export interface QuoteData extends PaperIssue {
  readonly letterhead: Letterhead
  readonly customer: Addressee
  readonly quoteNumber: string
  readonly customerReference?: string
  readonly issuedOn: string
  readonly validUntil: string
  readonly currency: string
  readonly locale: string
  readonly lines: readonly QuoteLine[]
  /** Given where every line has one quantity; absent where the customer still chooses among breaks. */
  readonly totals?: {
    readonly subtotalCents: number
    readonly taxes: readonly {
      readonly label: string
      readonly rateFraction: number
      readonly amountCents: number
    }[]
    readonly totalCents: number
  }
  readonly taxNote?: string
  /** What the shop writes to this customer. */
  readonly noteLines?: readonly string[]
  readonly terms: readonly string[]
  readonly whatIsChecked: readonly string[]
  readonly changesSinceLastRevision: readonly string[]
  readonly acceptUrl?: string
}

/** The offer: what, how many, at what price, until when, and how to say yes. */
export function QuoteDocument({ data }: { data: QuoteData }) {
  const money = (amountCents: number) =>
    formatMoney(amountCents, { currency: data.currency, locale: data.locale })
  return (
    <PaperFile
      title={`Quote ${data.quoteNumber} revision ${data.revision}`}
      author={data.letterhead.name}
      issue={data}
    >
      <Sheet issue={data} name={`${data.letterhead.name} · Quote ${data.quoteNumber}`}>
        <LetterHead
          from={data.letterhead}
          to={data.customer}
          kind="Quote"
          number={data.quoteNumber}
          revision={`revision ${data.revision}`}
        />
        <Facts
          facts={[
            ['Date', data.issuedOn],
            ['Valid until', data.validUntil],
            ...(data.customerReference ? ([['Your reference', data.customerReference]] as const) : []),
            ['Prices in', data.currency],
          ]}
        />
        {data.noteLines?.map((line, index) => (
          <Words key={`${index}-${line}`} style={{ marginTop: index === 0 ? 8 : 0 }}>
            {line}
          </Words>
        ))}
        <View style={{ ...style.row, ...style.heavyRule, marginTop: 10 }} fixed>
          <View style={{ flex: SHARES[0], paddingRight: 8 }}>
            <Words style={style.columnHead}>Item</Words>
          </View>
          <View style={{ ...style.row, flex: SHARES[1] + SHARES[2] + SHARES[3] + SHARES[4] }}>
            <Words style={{ ...style.columnHead, ...amountColumn(1) }}>From</Words>
            <Words style={{ ...style.columnHead, ...amountColumn(2) }}>Each</Words>
            <Words style={{ ...style.columnHead, ...amountColumn(3) }}>Amount</Words>
            <Words style={{ ...style.columnHead, flex: SHARES[4] }}>Lead time</Words>
          </View>
        </View>
        {data.lines.map((line) => (
          <LineBlock key={line.lineNumber} line={line} money={money} />
        ))}
        {data.totals ? <Totals totals={data.totals} money={money} /> : null}
        {data.totals ? null : (
          <Words style={{ ...style.small, marginTop: 3 }}>
            Each price holds from its number of pieces up to the next. Quantities of an item are alternatives:
            choose one of each.
          </Words>
        )}
        {data.taxNote ? <Words style={style.small}>{data.taxNote}</Words> : null}
        {data.changesSinceLastRevision.length > 0 ? (
          <View>
            <Heading>Changed since the last revision</Heading>
            <Statements statements={data.changesSinceLastRevision} />
          </View>
        ) : null}
        <Heading>What we check</Heading>
        <Statements statements={data.whatIsChecked} />
        {data.terms.length > 0 ? (
          <View>
            <Heading>Terms</Heading>
            <Statements statements={data.terms} />
          </View>
        ) : null}
        <Acceptance data={data} />
      </Sheet>
    </PaperFile>
  )
}

const SHARES = [5, 1, 1.6, 1.8, 2] as const

function amountColumn(column: 1 | 2 | 3) {
  return { flex: SHARES[column], textAlign: 'right', paddingRight: 10 } as const
}

function LineBlock({ line, money }: { line: QuoteLine; money: (cents: number) => string }) {
  return (
    <View style={{ ...style.row, ...style.rule, paddingVertical: 3 }} wrap={false}>
      <View style={{ flex: SHARES[0], paddingRight: 8, overflow: 'hidden' }}>
        <Words
          style={{ fontSize: 10, fontWeight: 600 }}
        >{`${line.lineNumber}  ${line.partNumber} rev ${line.partRevision}`}</Words>
        <Words>{line.description}</Words>
        {line.note ? <Words style={style.small}>{line.note}</Words> : null}
      </View>
      <View style={{ flex: SHARES[1] + SHARES[2] + SHARES[3] + SHARES[4] }}>
        {line.breaks.map((offer) => (
          <View key={offer.quantityPieces} style={{ ...style.row, paddingVertical: 1 }}>
            <Figures style={amountColumn(1)}>{offer.quantityPieces}</Figures>
            <Figures style={amountColumn(2)}>{money(offer.unitPriceCents)}</Figures>
            <Figures style={amountColumn(3)}>{money(offer.amountCents)}</Figures>
            <Words style={{ flex: SHARES[4] }}>{offer.leadTimeText}</Words>
          </View>
        ))}
      </View>
    </View>
  )
}

function Totals({
  totals,
  money,
}: {
  totals: NonNullable<QuoteData['totals']>
  money: (cents: number) => string
}) {
  const rows = [
    ['Subtotal', totals.subtotalCents],
    ...totals.taxes.map(
      ({ label, rateFraction, amountCents }) =>
        [`${label} ${formatPercent(rateFraction, { decimals: 3 })}`, amountCents] as const,
    ),
  ] as const
  return (
    <View style={{ alignSelf: 'flex-end', width: '45%', marginTop: 4 }} wrap={false}>
      {rows.map(([label, cents]) => (
        <View key={label} style={{ ...style.row, justifyContent: 'space-between', paddingVertical: 1 }}>
          <Words>{label}</Words>
          <Figures>{money(cents)}</Figures>
        </View>
      ))}
      <View
        style={{
          ...style.row,
          justifyContent: 'space-between',
          borderTopWidth: 1.2,
          borderColor: '#000',
          paddingTop: 3,
        }}
      >
        <Words style={{ fontSize: 12, fontWeight: 600 }}>Total</Words>
        <Figures style={{ fontSize: 12, fontWeight: 600 }}>{money(totals.totalCents)}</Figures>
      </View>
    </View>
  )
}

function Acceptance({ data }: { data: QuoteData }) {
  return (
    <View style={{ marginTop: 12 }} wrap={false}>
      <Heading>To accept</Heading>
      <View style={{ ...style.row, alignItems: 'center' }}>
        <View style={{ flex: 1 }}>
          <Words>{`Sign and return this page by ${data.validUntil}${data.acceptUrl ? ', or scan the code to read and accept it on screen' : ''}.`}</Words>
          <View style={{ marginTop: 4 }}>
            <WriteBoxes
              labels={['items and quantities', 'name', 'signature', 'date', 'your order no.']}
              heightMm={13}
            />
          </View>
        </View>
        {data.acceptUrl ? <ScanCode text={data.acceptUrl} sizeMm={26} /> : null}
      </View>
    </View>
  )
}
