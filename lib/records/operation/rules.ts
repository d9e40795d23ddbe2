import type { OperationKey } from '@/lib/core/cost/operation'
import type { WayKey } from '@/lib/core/cost/ways'
import { meltsInOpenWater } from '@/lib/core/materials/fill'
import type { SpecAnswer } from '@/lib/core/spec/contract'
import { sawnLengthMm } from '@/lib/core/spec/lengths'

/** One number to set the work by, in the program's own unit. */
export type SetPoint =
  | { label: string; kind: 'length' | 'angle' | 'force' | 'mass' | 'temperature'; value: number }
  | { label: string; kind: 'text'; value: string }

export type OperationPlan = { instruction: string; setPoints: SetPoint[] }

/** What of the plan the set-points are taken from. */
export type OperationSource = {
  way: WayKey
  spec: SpecAnswer | null
  input: { kerfMm?: number } | null
  mitred?: { longLengthsMm: readonly number[]; sawAnglesDeg: readonly number[] } | null
  setUp: {
    supportSpanMm: number
    press: { shopNumber: string; name: string }
    die: { shopNumber: string } | null
    strap: { shopNumber: string } | null
    filler: { shopNumber: string; name: string } | null
  } | null
}

const instructions: Readonly<Record<OperationKey, string>> = {
  readJob: 'Check the revision on this sheet against the drawing. Lay out tube, tools and gauges.',
  orderOutside: 'Order from the source that was chosen; note the order and the promised day.',
  receive: 'Count, check against the drawing, keep the certificate.',
  saw: 'Saw every piece to the cut length. Write the piece number and the heat number on each.',
  sawMitres: 'Saw the straights and their mitres. Keep the datum end marked.',
  deburr: 'Deburr inside and outside. Nothing sharp may be left under the strap.',
  mark: 'Scribe all marks from the datum end with one tape. Mark the side that will be outside.',
  anneal: 'Send out to be annealed, with the material and the wanted temper in writing.',
  cleanBore:
    'Clean and dry the bore, then oil it thinly so that the filler lets go. The bore must be bone dry.',
  fill: 'Warm the tube, plug the lower end, pour slowly with the tube tilted, cool from the bottom up.',
  packSand: 'Fill with dry sand, tap until it sinks no more, plug both ends hard.',
  setUpPress: 'Set span, die and strap by their shop numbers. Stand clear of the line of the tube.',
  trial:
    'Bend the trial piece to the angle at the press, melt out, measure, log it: the target is corrected from it.',
  bend: 'Bend to the loaded angle, back off, read the angle at the press and log the try.',
  meltOut: 'Melt out in hot water or steam, open end down, no open flame on the tube. Weigh what comes back.',
  emptySand: 'Empty, blow out with eye protection, look for grains at the bends.',
  checkAngles: 'Measure every bend after its last release and complete its try on the bench screen.',
  dyePenetrant:
    'Clean, penetrant, wipe, developer. Look at the outer face of every bend and note the result.',
  age: 'Send out to be aged, with the alloy and the wanted temper in writing.',
  solutionAge: 'Send out to be solution treated and aged. Check for distortion when it comes back.',
  trimEnds: 'Cut both ends square to length from the datum.',
  mitreEnds: 'Wrap the template round the end, scribe, saw on the line.',
  saddleEnds: 'Wrap the template round the end, scribe, cope on the line.',
  fitWeldMitres: 'Fit, tack, check the angle, weld, check again.',
  fitWeld: 'Fit and weld. No filler may be left in the bore: it ruins the weld and its fumes are poison.',
  drill: 'Drill the holes from the drawing.',
  inspect: 'Fill in the inspection record. Nothing leaves past an open fault.',
  pack: 'Label every piece, pack so that bends do not touch.',
}

const number = (value: number): string => String(Number(value.toPrecision(4)))

function bendPoints({ spec, way }: OperationSource): SetPoint[] {
  if (!spec) return []
  const filled = way !== 'hollow' && way !== 'sand'
  return spec.bends.flatMap((bend, index): SetPoint[] => [
    { label: `Bend ${index + 1}: loaded angle`, kind: 'angle', value: bend.loadedAngleDeg },
    { label: `Bend ${index + 1}: angle at the press`, kind: 'angle', value: bend.angleAtPressDeg },
    ...(filled
      ? [{ label: `Bend ${index + 1}: after melt-out`, kind: 'angle' as const, value: bend.finalAngleDeg }]
      : []),
    { label: `Bend ${index + 1}: ram travel`, kind: 'length', value: bend.ramTravelMm },
    { label: `Bend ${index + 1}: press force`, kind: 'force', value: bend.pressForceKn },
  ])
}

function mitrePoints({ mitred }: OperationSource): SetPoint[] {
  if (!mitred) return []
  return [
    ...mitred.longLengthsMm.map((value, index): SetPoint => {
      return { label: `Straight ${index + 1}, over the long points`, kind: 'length', value }
    }),
    ...mitred.sawAnglesDeg.map((value, index): SetPoint => {
      return { label: `Corner ${index + 1}: saw both sides off square`, kind: 'angle', value }
    }),
  ]
}

function setPoints(key: OperationKey, source: OperationSource): SetPoint[] {
  const { spec, setUp } = source
  const filler = spec?.filler
  switch (key) {
    case 'saw':
      return spec
        ? [
            {
              label: 'Cut length',
              kind: 'length',
              value: sawnLengthMm(spec, source.input?.kerfMm ?? 0),
            },
          ]
        : []
    case 'sawMitres':
      return mitrePoints(source)
    case 'fill':
    case 'packSand':
      return [
        ...(setUp?.filler
          ? [
              {
                label: 'Filler',
                kind: 'text' as const,
                value: `${setUp.filler.shopNumber}, ${setUp.filler.name}`,
              },
            ]
          : []),
        ...(filler ? [{ label: 'A piece takes', kind: 'mass' as const, value: filler.massKg }] : []),
        ...(filler?.liquidusC === undefined
          ? []
          : [{ label: 'Pour at', kind: 'temperature' as const, value: filler.liquidusC + pourAboveC }]),
      ]
    case 'setUpPress':
      return setUp
        ? [
            { label: 'Press', kind: 'text', value: `${setUp.press.shopNumber}, ${setUp.press.name}` },
            { label: 'Support span', kind: 'length', value: setUp.supportSpanMm },
            ...(setUp.die
              ? [{ label: 'Die', kind: 'text' as const, value: setUp.die.shopNumber }]
              : (spec?.bends.slice(0, 1) ?? []).map((bend) => ({
                  label: 'Die to make, surface radius',
                  kind: 'length' as const,
                  value: bend.dieSurfaceRadiusMm,
                }))),
            ...(setUp.strap
              ? [{ label: 'Strap', kind: 'text' as const, value: setUp.strap.shopNumber }]
              : []),
          ]
        : []
    case 'trial':
    case 'bend':
      return bendPoints(source)
    case 'meltOut':
      return filler?.liquidusC === undefined
        ? []
        : [
            {
              label: meltsInWater(source) ? 'Water at least' : 'Oil or oven at',
              kind: 'temperature',
              value: filler.liquidusC + meltOutAboveC,
            },
            { label: 'Should come back, a piece', kind: 'mass', value: filler.massKg },
          ]
    default:
      return []
  }
}

const meltsInWater = ({ spec }: OperationSource): boolean =>
  spec?.filler?.liquidusC === undefined || meltsInOpenWater({ liquidusC: spec.filler.liquidusC })

/** No water is that hot, and a wet tube in hot oil throws it. */
const meltOutDry =
  'Melt out in hot oil or an oven, the tube bone dry, open end down, no open flame on the tube. Weigh what comes back.'

/** How far above the liquidus the filler is poured, and the bath is kept that melts it out. Common practice, no source. */
export const pourAboveC = 20
export const meltOutAboveC = 15

/** What to do in one operation, and the numbers to do it by. */
export function operationPlan(key: OperationKey, source: OperationSource): OperationPlan {
  const points = setPoints(key, source)
  for (const point of points) {
    if (point.kind !== 'text' && !Number.isFinite(point.value)) {
      throw new RangeError(`The set-point "${point.label}" is a number, not ${number(point.value)}.`)
    }
  }
  const instruction = key === 'meltOut' && !meltsInWater(source) ? meltOutDry : instructions[key]
  return { instruction, setPoints: points }
}
