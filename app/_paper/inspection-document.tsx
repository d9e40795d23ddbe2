import { View } from '@react-pdf/renderer'
import { Statements } from './letter-head'
import { type MeasuredRow, MeasuredTable } from './measured-table'
import { Facts, Heading, PaperFile, type PaperIssue, Sheet, Words, WriteBoxes } from './paper'
import { style } from './style'

/** Printed on every record of inspection: what such a paper is not. */
export const LIMITS_OF_INSPECTION =
  'This record says what was measured, with what, by whom and when. It is not a certification of the part for any use. Whether a structural part may be used is decided by local codes and a licensed engineer.'

export interface InspectionData extends PaperIssue {
  readonly shopName: string
  readonly recordNumber: string
  readonly jobNumber: string
  readonly customerName: string
  readonly orderNumber?: string
  readonly partNumber: string
  readonly partRevision: string
  readonly partTitle: string
  readonly drawingNumber?: string
  readonly materialText: string
  readonly heatNumbers: readonly string[]
  readonly pieceNumbers: readonly string[]
  /** The rule by which a reading near its limit was judged, with its source. */
  readonly decisionRule: string
  readonly rows: readonly MeasuredRow[]
  readonly concessions: readonly {
    readonly pieceNumber: string
    readonly what: string
    readonly why: string
    readonly decidedBy: string
    readonly decidedOn: string
  }[]
  readonly whatWasChecked: readonly string[]
  readonly whatWasNotChecked: readonly string[]
  readonly inspectedBy: string
  readonly inspectedOn: string
  readonly releasedBy?: string
  readonly releasedOn?: string
}

/** The record that goes to the customer: every bend required, measured and judged. */
export function InspectionDocument({ data }: { data: InspectionData }) {
  return (
    <PaperFile title={`Inspection record ${data.recordNumber}`} author={data.shopName} issue={data}>
      <Sheet issue={data} name={`${data.shopName} · Inspection record ${data.recordNumber}`}>
        <Words style={style.small}>{`${data.shopName} · Inspection record`}</Words>
        <View style={style.heavyRule}>
          <Words style={style.title}>{data.recordNumber}</Words>
        </View>
        <Facts
          facts={[
            ['Customer', data.customerName],
            ['Customer order', data.orderNumber ?? ''],
            ['Job', data.jobNumber],
            ['Part', `${data.partNumber} rev ${data.partRevision}`],
            ['Title', data.partTitle],
            ['Drawing', data.drawingNumber ?? ''],
            ['Material', data.materialText],
            ['Heat numbers', data.heatNumbers.join(', ')],
          ]}
        />
        <Words style={{ fontSize: 8.5, marginTop: 3 }}>{`Pieces: ${data.pieceNumbers.join(', ')}`}</Words>
        <Heading>Measured on the finished piece, cold and empty</Heading>
        <MeasuredTable rows={data.rows} />
        <Words style={{ fontSize: 8, marginTop: 3 }}>{`Decision rule: ${data.decisionRule}`}</Words>
        <InspectionConcessions data={data} />
        <Heading>What was checked</Heading>
        <Statements statements={data.whatWasChecked} />
        {data.whatWasNotChecked.length > 0 ? <Heading>What was not checked</Heading> : null}
        <Statements statements={data.whatWasNotChecked} />
        <View wrap={false} style={{ marginTop: 6 }}>
          <Words style={{ fontSize: 9, fontWeight: 600 }}>{LIMITS_OF_INSPECTION}</Words>
          <Words style={{ fontSize: 9, marginVertical: 3 }}>
            {`Inspected by ${data.inspectedBy}, ${data.inspectedOn}.${data.releasedBy ? ` Released by ${data.releasedBy}, ${data.releasedOn ?? ''}.` : ' Not released.'}`}
          </Words>
          <WriteBoxes
            labels={['inspector, signature', 'date', 'released by, signature', 'date']}
            heightMm={12}
          />
        </View>
      </Sheet>
    </PaperFile>
  )
}

function InspectionConcessions({ data }: { data: InspectionData }) {
  return (
    <View>
      <Heading>Concessions</Heading>
      {data.concessions.length === 0 ? <Words style={{ fontSize: 8.5 }}>None.</Words> : null}
      {data.concessions.map((concession, index) => (
        <View key={`${index}-${concession.pieceNumber}`} wrap={false}>
          <Words style={{ fontSize: 8.5 }}>
            {`${concession.pieceNumber}: ${concession.what}. ${concession.why} Accepted by ${concession.decidedBy}, ${concession.decidedOn}.`}
          </Words>
        </View>
      ))}
    </View>
  )
}
