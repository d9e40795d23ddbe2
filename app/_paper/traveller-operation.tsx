import { Text, View } from '@react-pdf/renderer'
import { formatDuration } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import { Caution } from './cautions'
import { Figures, Words, WriteBoxes } from './paper'
import { angleText, type PaperQuantity, quantityText } from './quantity'
import { SET_POINT_PT, style } from './style'
import type { TravellerBend, TravellerOperation } from './traveller-data'

/** One operation: what to do, what to set, what can hurt, who did it. */
export function OperationBlock({
  operation,
  bends,
  lengthUnit,
}: {
  operation: TravellerOperation
  bends: readonly TravellerBend[]
  lengthUnit: LengthUnit
}) {
  const made = bends.filter(({ bendNumber }) => operation.bendNumbers?.includes(bendNumber))
  return (
    <View style={{ borderTopWidth: 0.8, borderColor: '#000', paddingVertical: 4 }} wrap={made.length > 1}>
      <View style={style.row} wrap={false}>
        <Text style={{ width: 34, fontSize: 16, fontWeight: 600, lineHeight: 1.1 }}>
          {operation.sequence}
        </Text>
        <View style={{ flex: 1, overflow: 'hidden' }}>
          <Words style={{ fontSize: 12, fontWeight: 600 }}>{operation.title}</Words>
          <Words style={{ fontSize: 9.5 }}>{operation.instruction}</Words>
        </View>
        {operation.plannedMin === undefined ? null : (
          <Words
            style={{ ...style.small, width: 62, textAlign: 'right' }}
          >{`planned ${formatDuration(operation.plannedMin)}`}</Words>
        )}
      </View>
      <View style={{ paddingLeft: 34 }}>
        {operation.hazards.map((hazard) => (
          <Caution key={hazard} hazard={hazard} />
        ))}
        {operation.setPoints.length > 0 ? (
          <View style={{ ...style.row, flexWrap: 'wrap', marginTop: 3 }}>
            {operation.setPoints.map(({ label, quantity }) => (
              <BigValue key={label} label={label} quantity={quantity} lengthUnit={lengthUnit} />
            ))}
          </View>
        ) : null}
        {made.map((bend) => (
          <BendBlock key={bend.bendNumber} bend={bend} lengthUnit={lengthUnit} />
        ))}
      </View>
    </View>
  )
}

function BigValue({
  label,
  quantity,
  lengthUnit,
}: {
  label: string
  quantity: PaperQuantity
  lengthUnit: LengthUnit
}) {
  const { main, other } = quantityText(quantity, lengthUnit)
  return (
    <View style={{ minWidth: 92, paddingRight: 14, paddingBottom: 3 }} wrap={false}>
      <Words style={style.label}>{label}</Words>
      <Figures style={{ fontSize: SET_POINT_PT, fontWeight: 600, lineHeight: 1.15 }}>{main}</Figures>
      {other ? <Words style={style.small}>{other}</Words> : null}
    </View>
  )
}

/** The three angles of one bend, the largest things on the page, and boxes for what was measured. */
export function BendBlock({
  bend,
  lengthUnit,
  withBoxes = false,
}: {
  bend: TravellerBend
  lengthUnit: LengthUnit
  withBoxes?: boolean
}) {
  const final = bend.afterMeltOut ?? bend.atPress
  const range = (angle: { lowDeg: number; highDeg: number }) =>
    `range ${angleText(angle.lowDeg)} to ${angleText(angle.highDeg)}`
  const cells: readonly (readonly [label: string, main: string, below: string])[] = [
    [
      'LOAD TO (ram full down)',
      angleText(bend.loadedAngleDeg),
      `ram travel ${quantityText({ lengthMm: bend.ramTravelMm }, lengthUnit).main}`,
    ],
    [
      bend.afterMeltOut ? 'AT THE PRESS (ram back, filled)' : 'EXPECT (ram back)',
      angleText(bend.atPress.expectedDeg),
      range(bend.atPress),
    ],
    ...(bend.afterMeltOut
      ? [
          [
            'AFTER MELT-OUT (empty, cold)',
            angleText(bend.afterMeltOut.expectedDeg),
            range(bend.afterMeltOut),
          ] as const,
        ]
      : []),
    [
      'WANTED',
      angleText(bend.wantedAngleDeg),
      `accept ${angleText(bend.wantedAngleDeg - bend.angleToleranceDeg)} to ${angleText(bend.wantedAngleDeg + bend.angleToleranceDeg)}`,
    ],
  ]
  const where = quantityText({ lengthMm: bend.centreMarkMm }, lengthUnit)
  return (
    <View style={{ marginTop: 5 }} wrap={false}>
      <Words style={{ fontSize: 10, fontWeight: 600 }}>
        {`Bend ${bend.bendNumber}: centre mark ${where.main} (${where.other}), turn the tube ${angleText(bend.rotationDeg)}, radius ${quantityText({ lengthMm: bend.finalRadiusMm }, lengthUnit).main}, about ${quantityText({ forceKn: bend.pressForceKn }, lengthUnit).main}`}
      </Words>
      <View style={{ ...style.row, ...style.box, marginTop: 2 }}>
        {cells.map(([label, main, below], index) => (
          <View
            key={label}
            style={{ flex: 1, padding: 3, borderColor: '#000', borderLeftWidth: index === 0 ? 0 : 0.6 }}
          >
            <Text style={{ fontSize: 6.8, lineHeight: 1.15, height: 9 }}>{label}</Text>
            <Figures style={{ fontSize: 21, fontWeight: 600, lineHeight: 1.1 }}>{main}</Figures>
            <Words style={{ fontSize: 8.5 }}>{below}</Words>
          </View>
        ))}
      </View>
      {withBoxes ? (
        <View>
          <WriteBoxes
            labels={[
              'loaded to °',
              'at the press °',
              ...(bend.afterMeltOut ? ['after melt-out °'] : []),
              'radius',
              'verdict: pass / fail / cannot say',
            ]}
            heightMm={12}
          />
          <WriteBoxes
            labels={[
              'width inner face',
              'width middle',
              'width outer face',
              'wall outside',
              'wall inside',
              'dye / look',
              'gauge, by, date',
            ]}
            heightMm={12}
          />
          <Words
            style={style.small}
          >{`Accept ${angleText(bend.wantedAngleDeg - bend.angleToleranceDeg)} to ${angleText(bend.wantedAngleDeg + bend.angleToleranceDeg)} on ${final === bend.atPress ? 'the released' : 'the empty, cold'} tube. Every try is written down, the bad ones too.`}</Words>
        </View>
      ) : null}
    </View>
  )
}
