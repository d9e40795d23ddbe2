import { Text, View } from '@react-pdf/renderer'
import { formatDuration } from '@/lib/core/format'
import { Caution } from './cautions'
import { cleanText } from './clean-text'
import { Labelled, Words, WriteBoxes } from './paper'
import { quantityText } from './quantity'
import { SET_POINT_PT, style } from './style'
import { Table } from './table'
import type { TravellerBend, TravellerData, TravellerOperation } from './traveller-data'
import { bendBoxes, bendTable, trialBoxes } from './traveller-words'

const SET_POINT = { ...style.mono, fontSize: SET_POINT_PT, fontWeight: 600, lineHeight: 1.15 } as const
const READ_ANGLE = { ...style.mono, fontSize: 19, fontWeight: 600, lineHeight: 1.1 } as const

/** More marks or bends than these fill a sheet: only then may an operation run over two. */
const MOST_ON_A_SHEET = { marks: 28, bends: 9 } as const

/** One operation, whole on its sheet: what to do, what to set, what can hurt, and the marks, trial or bends that belong to it. */
export function OperationBlock({ operation, data }: { operation: TravellerOperation; data: TravellerData }) {
  const made = data.bends.filter(({ bendNumber }) => operation.bendNumbers?.includes(bendNumber))
  const isLong =
    made.length > MOST_ON_A_SHEET.bends ||
    (operation.shows === 'marks' && data.marks.length > MOST_ON_A_SHEET.marks)
  const planned = operation.plannedMin === undefined ? '' : `planned ${formatDuration(operation.plannedMin)}`
  return (
    <View style={{ borderTopWidth: 0.8, borderColor: '#000', paddingVertical: 4 }} wrap={isLong}>
      <View style={style.row} wrap={false}>
        <Text style={{ width: 34, fontSize: 16, fontWeight: 600, lineHeight: 1.1 }}>
          {operation.sequence}
        </Text>
        <Text style={{ flex: 1 }}>
          <Text
            style={{ fontSize: 12, fontWeight: 600, lineHeight: 1.25 }}
          >{`${cleanText(operation.title)}\n`}</Text>
          <Text style={{ fontSize: 9.5, lineHeight: 1.25 }}>{cleanText(operation.instruction)}</Text>
        </Text>
        <Text style={{ ...style.small, width: 74, textAlign: 'right' }}>{cleanText(planned)}</Text>
      </View>
      {operation.hazards.map((hazard) => (
        <Caution key={hazard} hazard={hazard} />
      ))}
      {operation.setPoints.length > 0 ? (
        <View style={{ ...style.row, flexWrap: 'wrap', marginTop: 3 }} wrap={false}>
          {operation.setPoints.map(({ label, quantity }) => {
            const { main, other } = quantityText(quantity, data.lengthUnit)
            return (
              <Labelled
                key={label}
                label={label}
                value={main}
                below={other}
                valueLook={SET_POINT}
                look={{ paddingRight: 18, paddingBottom: 2 }}
              />
            )
          })}
        </View>
      ) : null}
      {operation.shows === 'marks' && data.marks.length > 0 ? <MarksTable data={data} /> : null}
      {operation.shows === 'trial' && data.trialSteps.length > 0 ? <TrialPiece data={data} /> : null}
      {made.length > 0 ? (
        <View style={{ marginTop: 3 }}>
          <BendRows bends={made} data={data} />
          {data.rangeText ? <Words style={{ ...style.small, marginTop: 2 }}>{data.rangeText}</Words> : null}
        </View>
      ) : null}
    </View>
  )
}

/** Every mark from the one end, the nearest first. */
export function MarksTable({ data }: { data: TravellerData }) {
  return (
    <View>
      <Words style={{ fontSize: 9.5, marginVertical: 2 }}>
        {`Measured from one end only. ${data.datumText}`}
      </Words>
      <Table
        columns={[
          { head: 'From the datum end', share: 2, align: 'right', mono: true, fontSize: 12.5 },
          { head: 'the same', share: 1.6, align: 'right', mono: true },
          { head: 'Mark', share: 4.4, fontSize: 10.5 },
          { head: 'Scribed', share: 1, tick: true },
        ]}
        rows={data.marks.map((mark) => {
          const { main, other } = quantityText({ lengthMm: mark.atMm }, data.lengthUnit)
          return [main, other, mark.label, '']
        })}
        fontSize={9.5}
      />
    </View>
  )
}

/** What to do with the trial piece, step by step, and boxes for three of them. */
export function TrialPiece({ data }: { data: TravellerData }) {
  const meltsOut = data.bends.some(({ afterMeltOut }) => afterMeltOut)
  return (
    <View>
      {data.trialSteps.map((step, index) => (
        <View key={`${index}-${step}`} style={{ ...style.row, paddingVertical: 1 }} wrap={false}>
          <Text style={{ width: 16, fontSize: 9.5, fontWeight: 600 }}>{index + 1}.</Text>
          <Words style={{ flex: 1, fontSize: 9.5 }}>{step}</Words>
        </View>
      ))}
      <View style={{ marginTop: 3 }}>
        {[1, 2, 3].map((trial) => (
          <WriteBoxes key={trial} labels={trialBoxes(trial, meltsOut)} heightMm={9.5} />
        ))}
      </View>
    </View>
  )
}

/** Widths of the columns in shares: where, how far round, then the angles. */
const BEND_SHARES = [1.5, 3.3, 2, 2.9, 2.9, 2.9, 2.9]

/** One bend a row; the angles are the largest things on the sheet. */
export function BendRows({ bends, data }: { bends: readonly TravellerBend[]; data: TravellerData }) {
  const { heads, rows } = bendTable(bends, data.lengthUnit)
  const last = heads.length - 1
  const shareAt = (place: number) => BEND_SHARES[place === last ? BEND_SHARES.length - 1 : place]
  return (
    <View>
      <View style={{ ...style.row, alignItems: 'flex-end' }} wrap={false}>
        {heads.map((head, place) => (
          <Text
            key={head}
            style={{
              flex: shareAt(place),
              paddingHorizontal: 3,
              paddingBottom: 1,
              fontSize: 7.5,
              fontWeight: 600,
              lineHeight: 1.1,
            }}
          >
            {head}
          </Text>
        ))}
      </View>
      {rows.map(({ bendNumber, cells }) => (
        <View key={bendNumber} style={{ ...style.row, ...style.box, marginTop: -0.6 }} wrap={false}>
          {cells.map(({ main, below }, place) => (
            <Labelled
              key={heads[place]}
              label=""
              value={main}
              below={below}
              valueLook={place < 3 ? SET_POINT : READ_ANGLE}
              look={{
                flex: shareAt(place),
                paddingHorizontal: 3,
                paddingVertical: 2,
                borderColor: '#000',
                borderLeftWidth: place === 0 ? 0 : 0.6,
              }}
            />
          ))}
        </View>
      ))}
    </View>
  )
}

/** A bend on a piece's sheet: its figures, boxes for its tries, boxes for the finished bend. */
export function BendRecord({ bend, data }: { bend: TravellerBend; data: TravellerData }) {
  const { tries, finished } = bendBoxes(bend, data)
  return (
    <View style={{ marginTop: 4 }} wrap={false}>
      <BendRows bends={[bend]} data={data} />
      {[...tries, finished].map((labels, row) => (
        <WriteBoxes key={`${row}-${labels[0] ?? ''}`} labels={labels} heightMm={7.8} />
      ))}
    </View>
  )
}
