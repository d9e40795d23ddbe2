import { Text, View } from '@react-pdf/renderer'
import { Views, viewsHeightMm } from './linework'
import { Facts, Heading, PaperFile, printedWidthMm, Sheet, Words, WriteBoxes } from './paper'
import { ScanCode } from './qr'
import { quantityText } from './quantity'
import { style } from './style'
import { Table } from './table'
import type { TravellerData, TravellerPiece } from './traveller-data'
import { BendBlock, OperationBlock } from './traveller-operation'

/** The paper that goes with the work: one for the job with every set-point, then one for each piece with its boxes. */
export function TravellerDocument({ data }: { data: TravellerData }) {
  const { job } = data
  const name = `${data.shopName} · Traveller ${job.jobNumber}`
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
        <Sheet key={piece.pieceNumber} issue={data} name={`${name} piece ${piece.pieceNumber}`}>
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
  url,
  scanText,
}: {
  kind: string
  main: string
  sub: string
  url: string
  scanText: string
}) {
  return (
    <View style={{ ...style.row, ...style.heavyRule, justifyContent: 'space-between' }} wrap={false}>
      <View style={{ flex: 1, paddingRight: 8, overflow: 'hidden' }}>
        <Words style={style.small}>{kind}</Words>
        <Words style={style.title}>{main}</Words>
        <Words style={{ fontSize: 12, fontWeight: 600 }}>{sub}</Words>
      </View>
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
      <Heading>Stock for this job</Heading>
      <StockTable data={data} />
      {data.marks.length > 0 ? <MarksTable data={data} /> : null}
      <Heading>Operations, in order</Heading>
      {data.setUp.length > 0 ? <SetUpLine data={data} /> : null}
      {data.operations.map((operation) => (
        <OperationBlock
          key={operation.sequence}
          operation={operation}
          bends={data.bends}
          lengthUnit={data.lengthUnit}
        />
      ))}
      {data.rangeText ? <Words style={{ ...style.small, marginTop: 3 }}>{data.rangeText}</Words> : null}
      <TrialPiece data={data} />
    </View>
  )
}

/** The lots, or boxes to write them in while none is set apart. */
function StockTable({ data }: { data: TravellerData }) {
  if (data.stockLots.length === 0)
    return <WriteBoxes labels={['lot', 'heat number', 'certificate seen', 'place']} />
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

function MarksTable({ data }: { data: TravellerData }) {
  return (
    <View>
      <Heading>Marks to scribe</Heading>
      <Words style={style.small}>{`Measured from one end only. ${data.datumText}`}</Words>
      <Table
        columns={[
          { head: 'From datum', share: 1.6, align: 'right', mono: true },
          { head: 'the same', share: 1.6, align: 'right', mono: true },
          { head: 'Mark', share: 5 },
          { head: 'Scribed', share: 1, tick: true },
        ]}
        rows={[...data.marks]
          .sort((a, b) => a.atMm - b.atMm)
          .map((mark) => {
            const { main, other } = quantityText({ lengthMm: mark.atMm }, data.lengthUnit)
            return [main, other, mark.label, '']
          })}
        fontSize={9.5}
      />
    </View>
  )
}

function SetUpLine({ data }: { data: TravellerData }) {
  const words = data.setUp.map(
    ({ label, quantity }) => `${label} ${quantityText(quantity, data.lengthUnit).main}`,
  )
  return <Words style={{ fontSize: 10 }}>{`Set-up: ${words.join(' · ')}`}</Words>
}

function TrialPiece({ data }: { data: TravellerData }) {
  if (data.trialSteps.length === 0) return null
  return (
    <View>
      <Heading>Trial piece, before the first good one</Heading>
      {data.trialSteps.map((step, index) => (
        <View key={`${index}-${step}`} style={{ ...style.row, paddingVertical: 1.5 }} wrap={false}>
          <Text style={{ width: 16, fontWeight: 600 }}>{index + 1}.</Text>
          <Words style={{ flex: 1, fontSize: 10 }}>{step}</Words>
        </View>
      ))}
      <View style={{ marginTop: 4 }}>
        {[1, 2, 3].map((trial) => (
          <WriteBoxes
            key={trial}
            labels={[
              `Trial ${trial}: loaded to °`,
              'at the press °',
              'after melt-out °',
              'wanted less measured °',
              'next loaded °',
              'by, date',
            ]}
          />
        ))}
      </View>
    </View>
  )
}

function PieceSheet({ data, piece }: { data: TravellerData; piece: TravellerPiece }) {
  const { job, part } = data
  const isCut = piece.stockLotNumber !== ''
  return (
    <View>
      <Head
        kind={`${data.shopName} · Traveller, job ${job.jobNumber}`}
        main={`Piece ${piece.pieceNumber}`}
        sub={`${job.partNumber} rev ${job.partRevision} · due ${job.dueOn}`}
        url={piece.benchUrl}
        scanText="Scan to open this piece at the bench"
      />
      <Facts
        facts={[
          ...(isCut
            ? ([
                ['Stock lot', piece.stockLotNumber],
                ['Heat number', piece.heatNumber],
              ] as const)
            : []),
          ['Tube', part.sectionText],
          ['Material', part.materialText],
        ]}
      />
      {isCut ? null : <WriteBoxes labels={['stock lot', 'heat number', 'cut by, date']} />}
      {data.bends.map((bend) => (
        <BendBlock key={bend.bendNumber} bend={bend} lengthUnit={data.lengthUnit} withBoxes />
      ))}
      <Heading>Sign-off, in order</Heading>
      {data.operations.map((operation) => (
        <View key={operation.sequence} style={{ ...style.row, alignItems: 'stretch' }} wrap={false}>
          <View style={{ width: '34%', ...style.rule, paddingTop: 2, paddingRight: 4, overflow: 'hidden' }}>
            <Words
              style={{ fontSize: 9.5, fontWeight: 600 }}
            >{`${operation.sequence}  ${operation.title}`}</Words>
          </View>
          <View style={{ flex: 1 }}>
            <WriteBoxes
              labels={
                operation.isHoldPoint
                  ? ['by', 'date', 'minutes', 'good / scrap', 'HOLD: second person']
                  : ['by', 'date', 'minutes', 'good / scrap']
              }
              heightMm={7.5}
            />
          </View>
        </View>
      ))}
      <Heading>Remarks, and what was out of the ordinary</Heading>
      <WriteBoxes labels={['']} heightMm={18} />
    </View>
  )
}
