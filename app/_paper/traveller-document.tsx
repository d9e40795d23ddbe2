import { Text, View } from '@react-pdf/renderer'
import { cleanText } from './clean-text'
import { Views, viewsHeightMm } from './linework'
import { Facts, Heading, PaperFile, printedWidthMm, Sheet, Words, WriteBoxes } from './paper'
import { ScanCode } from './qr'
import { quantityText } from './quantity'
import { PT_PER_MM, style } from './style'
import { Table } from './table'
import type { TravellerData, TravellerPiece } from './traveller-data'
import { BendRecord, MarksTable, OperationBlock, TrialPiece } from './traveller-operation'
import { operationShowing, SIGN_OFF_HEADS } from './traveller-words'

/** The paper that goes with the work: one for the job with every set-point, then one for each piece with its boxes. */
export function TravellerDocument({ data }: { data: TravellerData }) {
  const { job } = data
  const name = `${data.shopName} · Traveller ${job.jobNumber} · ${job.partNumber} rev ${job.partRevision}`
  return (
    <PaperFile
      title={`Traveller ${job.jobNumber}, ${job.partNumber} rev ${job.partRevision}`}
      author={data.shopName}
      issue={data}
    >
      <Sheet issue={data} name={name}>
        <JobHead data={data} />
        <JobBody data={data} />
      </Sheet>
      {data.pieces.map((piece) => (
        <Sheet key={piece.pieceNumber} issue={data} name={`${name} · piece ${piece.pieceNumber}`}>
          <PieceSheet data={data} piece={piece} />
        </Sheet>
      ))}
    </PaperFile>
  )
}

function Head({
  kind,
  main,
  sub,
  below = '',
  url,
  scanText,
}: {
  kind: string
  main: string
  sub: string
  below?: string
  url: string
  scanText: string
}) {
  return (
    <View style={{ ...style.row, ...style.heavyRule, justifyContent: 'space-between' }} wrap={false}>
      <Text style={{ flex: 1, paddingRight: 8 }}>
        <Text style={style.small}>{`${cleanText(kind)}\n`}</Text>
        <Text style={style.title}>{`${cleanText(main)}\n`}</Text>
        <Text style={{ fontSize: 12, fontWeight: 600, lineHeight: 1.2 }}>{cleanText(sub)}</Text>
        {below === '' ? null : (
          <Text style={{ fontSize: 9, lineHeight: 1.25 }}>{`\n${cleanText(below)}`}</Text>
        )}
      </Text>
      <View style={{ ...style.row, alignItems: 'center' }}>
        <Words style={{ ...style.small, width: 62, textAlign: 'right' }}>{scanText}</Words>
        <ScanCode text={url} sizeMm={26} />
      </View>
    </View>
  )
}

function JobHead({ data }: { data: TravellerData }) {
  const { job, part } = data
  const length = (lengthMm: number | undefined) => {
    if (lengthMm === undefined) return ''
    const { main, other } = quantityText({ lengthMm }, data.lengthUnit)
    return `${main} (${other})`
  }
  return (
    <View>
      <Head
        kind={`${data.shopName} · Traveller`}
        main={`Job ${job.jobNumber}`}
        sub={`${job.partNumber} rev ${job.partRevision} · ${job.partTitle}`}
        url={job.benchUrl}
        scanText="Scan to open this job"
      />
      <Facts
        facts={[
          ['Customer', job.customerName],
          ['Customer order', job.orderNumber ?? ''],
          ['Pieces', String(job.pieceCount)],
          ['Due', job.dueOn],
          ['Drawing', job.drawingNumber ?? ''],
          ['Tube', part.sectionText],
          ['Material', part.materialText],
          ['Strength', part.valuesFromText ?? 'the material’s own values'],
          ['Ends in', part.endTemperText],
          ['Cut blank', length(part.cutLengthMm)],
          ['Centreline, developed', length(part.developedLengthMm)],
          [
            'One piece',
            part.massKg === undefined ? '' : quantityText({ massKg: part.massKg }, data.lengthUnit).main,
          ],
          ['Traveller', `issue ${data.revision}`],
        ]}
      />
    </View>
  )
}

function JobBody({ data }: { data: TravellerData }) {
  const [first, ...others] = data.operations
  return (
    <View>
      <Views
        views={data.drawings}
        pageWidthMm={printedWidthMm(data.paper)}
        heightMm={viewsHeightMm(data.drawings)}
      />
      {(data.remarks ?? []).map((remark, index) => (
        <Words key={`${index}-${remark}`} style={{ fontSize: 10, fontWeight: 600, marginTop: 3 }}>
          {remark}
        </Words>
      ))}
      <View wrap={false}>
        <Heading>Stock for this job</Heading>
        <StockTable data={data} />
      </View>
      {!operationShowing(data, 'marks') && data.marks.length > 0 ? (
        <View>
          <Heading>Marks to scribe</Heading>
          <MarksTable data={data} />
        </View>
      ) : null}
      <View wrap={false}>
        <Heading>Operations, in order</Heading>
        {data.setUp.length > 0 ? <SetUpLine data={data} /> : null}
        {first ? <OperationBlock operation={first} data={data} /> : null}
      </View>
      {others.map((operation) => (
        <OperationBlock key={operation.sequence} operation={operation} data={data} />
      ))}
      {!operationShowing(data, 'trial') && data.trialSteps.length > 0 ? (
        <View wrap={false}>
          <Heading>Trial piece, before the first good one</Heading>
          <TrialPiece data={data} />
        </View>
      ) : null}
    </View>
  )
}

/** The lots, or boxes to write them in while none is set apart. */
function StockTable({ data }: { data: TravellerData }) {
  if (data.stockLots.length === 0)
    return <WriteBoxes labels={['lot', 'heat number', 'certificate seen', 'place']} heightMm={9} />
  return (
    <Table
      columns={[
        { head: 'Lot', share: 2, mono: true },
        { head: 'Heat number', share: 2, mono: true },
        { head: 'Certificate', share: 3 },
        { head: 'Place', share: 2 },
      ]}
      rows={data.stockLots.map((lot) => [lot.lotNumber, lot.heatNumber, lot.certificateText, lot.placeText])}
    />
  )
}

function SetUpLine({ data }: { data: TravellerData }) {
  const words = data.setUp.map(
    ({ label, quantity }) => `${label} ${quantityText(quantity, data.lengthUnit).main}`,
  )
  return <Words style={{ fontSize: 10 }}>{`Set-up: ${words.join(' · ')}`}</Words>
}

function PieceSheet({ data, piece }: { data: TravellerData; piece: TravellerPiece }) {
  const { job, part } = data
  const cut = piece.stockLotNumber
    ? ` · lot ${piece.stockLotNumber}, heat ${piece.heatNumber || 'not noted'}`
    : ''
  return (
    <View>
      <Head
        kind={`${data.shopName} · Traveller, job ${job.jobNumber}`}
        main={`Piece ${piece.pieceNumber}`}
        sub={`${job.partNumber} rev ${job.partRevision} · ${job.partTitle}`}
        below={`${part.sectionText}, ${part.materialText} · due ${job.dueOn}${cut}`}
        url={piece.benchUrl}
        scanText="Scan to open this piece at the bench"
      />
      {piece.stockLotNumber ? null : (
        <View style={{ marginTop: 3 }}>
          <WriteBoxes labels={['stock lot', 'heat number', 'cut by, date']} heightMm={7.8} />
        </View>
      )}
      {data.bends.map((bend) => (
        <BendRecord key={bend.bendNumber} bend={bend} data={data} />
      ))}
      {data.bends.length > 0 ? (
        <Words style={style.small}>Every try is written down, the bad ones too.</Words>
      ) : null}
      <SignOff data={data} />
      <View style={{ marginTop: 4 }}>
        <WriteBoxes labels={['remarks, and what was out of the ordinary']} heightMm={9} />
      </View>
    </View>
  )
}

/** Where the boxes of the sign-off begin, in hundredths of its width; the first column is the operation's name. */
const SIGN_OFF_AT = [0, 36, 49, 62, 74, 86] as const
const SIGN_OFF_ROW_MM = 6.3
/** Rows that stay together: half a sheet. */
const SIGN_OFF_ROWS = 24

/** Rules across every row and down every column, not a box for each: boxes are what the renderer spends its time on. */
function SignOff({ data }: { data: TravellerData }) {
  const holds = data.operations.some(({ isHoldPoint }) => isHoldPoint)
  const columns = SIGN_OFF_HEADS.slice(0, holds ? undefined : -1).map((head, place) => ({
    head,
    left: `${SIGN_OFF_AT[place]}%`,
  }))
  const chunks = Array.from({ length: Math.ceil(data.operations.length / SIGN_OFF_ROWS) }, (_, index) =>
    data.operations.slice(index * SIGN_OFF_ROWS, (index + 1) * SIGN_OFF_ROWS),
  )
  return chunks.map((operations) => (
    <View key={operations[0]?.sequence} style={{ marginTop: 3 }} wrap={false}>
      <View style={{ height: 11 }}>
        {columns.map(({ head, left }) => (
          <Text key={head} style={{ ...style.small, position: 'absolute', left, top: 0, paddingLeft: 3 }}>
            {head}
          </Text>
        ))}
      </View>
      <View style={{ borderWidth: 0.6, borderBottomWidth: 0, borderColor: '#000' }}>
        {operations.map(({ sequence, title, isHoldPoint }) => (
          <Text
            key={sequence}
            style={{
              minHeight: SIGN_OFF_ROW_MM * PT_PER_MM,
              paddingTop: 3.5,
              paddingLeft: 3,
              paddingRight: '64%',
              fontSize: 9,
              fontWeight: 600,
              lineHeight: 1.1,
              borderBottomWidth: 0.6,
              borderColor: '#000',
            }}
          >
            {cleanText(`${sequence}  ${title}${isHoldPoint ? ' (HOLD)' : ''}`)}
          </Text>
        ))}
        {columns.slice(1).map(({ head, left }) => (
          <View
            key={head}
            style={{
              position: 'absolute',
              left,
              top: 0,
              bottom: 0,
              borderLeftWidth: 0.6,
              borderColor: '#000',
            }}
          />
        ))}
      </View>
    </View>
  ))
}
