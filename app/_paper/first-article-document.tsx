import { View } from '@react-pdf/renderer'
import { LIMITS_OF_INSPECTION } from './inspection-document'
import { type Linework, Views, viewsHeightMm } from './linework'
import { type MeasuredRow, MeasuredTable, VerdictMark } from './measured-table'
import { Facts, Heading, PaperFile, type PaperIssue, printedWidthMm, Sheet, Words, WriteBoxes } from './paper'
import { style } from './style'
import { Table } from './table'

export interface FirstArticleData extends PaperIssue {
  readonly shopName: string
  readonly reportNumber: string
  readonly jobNumber: string
  readonly customerName: string
  readonly partNumber: string
  readonly partRevision: string
  readonly partTitle: string
  readonly drawingNumber?: string
  readonly pieceNumber: string
  readonly reason: string
  readonly drawings: readonly Linework[]
  /** Material, filler, heat treatment, dye: what went into the piece and the paper that proves it. */
  readonly accountability: readonly {
    readonly what: string
    readonly specification: string
    readonly lotNumber: string
    readonly proof: string
  }[]
  readonly rows: readonly MeasuredRow[]
  readonly decisionRule: string
  readonly verdict: 'pass' | 'fail' | 'cannotSay'
  readonly openNonconformances: readonly string[]
  readonly preparedBy: string
  readonly preparedOn: string
}

/** The first piece, every characteristic of the drawing by its number, before the rest are made. */
export function FirstArticleDocument({ data }: { data: FirstArticleData }) {
  return (
    <PaperFile title={`First article ${data.reportNumber}`} author={data.shopName} issue={data}>
      <Sheet issue={data} name={`${data.shopName} · First article ${data.reportNumber}`}>
        <Words style={style.small}>{`${data.shopName} · First-article report`}</Words>
        <View
          style={{ ...style.row, ...style.heavyRule, justifyContent: 'space-between', alignItems: 'center' }}
        >
          <Words style={style.title}>{data.reportNumber}</Words>
          <VerdictMark verdict={data.verdict} />
        </View>
        <Facts
          facts={[
            ['Customer', data.customerName],
            ['Job', data.jobNumber],
            ['Part', `${data.partNumber} rev ${data.partRevision}`],
            ['Piece', data.pieceNumber],
            ['Title', data.partTitle],
            ['Drawing', data.drawingNumber ?? ''],
            ['Why', data.reason],
            ['Prepared', `${data.preparedBy}, ${data.preparedOn}`],
          ]}
        />
        <Views
          views={data.drawings}
          pageWidthMm={printedWidthMm(data.paper)}
          heightMm={viewsHeightMm(data.drawings)}
        />
        <Heading>What went into it</Heading>
        <Table
          columns={[
            { head: 'What', share: 2 },
            { head: 'Called for', share: 3 },
            { head: 'Lot or heat', share: 2, mono: true },
            { head: 'Proof', share: 3 },
          ]}
          rows={data.accountability.map((row) => [row.what, row.specification, row.lotNumber, row.proof])}
        />
        <Heading>Every characteristic</Heading>
        <MeasuredTable rows={data.rows} />
        <Words style={{ fontSize: 8, marginTop: 3 }}>{`Decision rule: ${data.decisionRule}`}</Words>
        <Heading>Open nonconformances</Heading>
        <Words>{data.openNonconformances.length === 0 ? 'None.' : data.openNonconformances.join('; ')}</Words>
        <View wrap={false} style={{ marginTop: 6 }}>
          <Words style={{ fontSize: 9, fontWeight: 600, marginBottom: 4 }}>{LIMITS_OF_INSPECTION}</Words>
          <WriteBoxes
            labels={[
              'prepared by, signature',
              'date',
              'second person, signature',
              'date',
              'customer, if asked',
            ]}
            heightMm={12}
          />
        </View>
      </Sheet>
    </PaperFile>
  )
}
