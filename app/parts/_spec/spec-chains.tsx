import type { AskedNumber, NumberChain } from '@/app/_ui/ask-number'
import { Quantity } from '@/app/_ui/unit-value'
import { formatForce } from '@/lib/core/format'
import type { ChainLink, Trace } from '@/lib/core/mechanics/trace'
import type { BendAnswer, SpecAnswer, SpecInput } from '@/lib/core/spec/contract'
import type { LengthUnit } from '@/lib/core/units'
import {
  angleShown,
  forceShown,
  inputShown,
  isHeld,
  lengthShown,
  rangeText,
  type Shown,
  shareShown,
} from './spec-shown'

/** One bend's answer with the record of how its numbers came about. */
export type SpecAsked = {
  input: SpecInput
  answer: SpecAnswer
  trace: () => Trace
  bend: BendAnswer
  index: number
  unit: LengthUnit
}

type Told = {
  /** The number's name in the core's record, below its bend; none for what was entered. */
  key?: string
  name: string
  shown: (asked: SpecAsked) => Shown
  note?: (asked: SpecAsked) => string | undefined
}

const length =
  (pick: (bend: BendAnswer) => number, decimalsMm = 1) =>
  ({ bend, unit }: SpecAsked) =>
    lengthShown(pick(bend), unit, decimalsMm)
const angle =
  (pick: (bend: BendAnswer) => number) =>
  ({ bend }: SpecAsked) =>
    angleShown(pick(bend))

function spread(text: string | undefined, unit: string, bend: BendAnswer): string | undefined {
  if (text !== undefined) return `From a tube 6 % weaker to one 6 % stronger: ${text} ${unit}.`
  return bend.range === null
    ? 'No range: a tube 6 % weaker or stronger could not be bent like this.'
    : undefined
}

const told = {
  wantedAngle: { name: 'the wanted angle', shown: angle((bend) => bend.wantedAngleDeg) },
  loadedAngle: {
    key: 'loadedAngleDeg',
    name: 'the angle to load to',
    shown: angle((bend) => bend.loadedAngleDeg),
    note: () => 'What a protractor on the straight ends reads at full travel.',
  },
  angleAtPress: {
    key: 'angleAtPressDeg',
    name: 'the angle at the press',
    shown: angle((bend) => bend.angleAtPressDeg),
    note: ({ input }) =>
      input.method.support === 'lowMelt'
        ? 'After the ram backs off, before the filler is melted out. A filler creeps: read it at once.'
        : 'After the ram backs off.',
  },
  finalAngle: {
    key: 'finalAngleDeg',
    name: 'the finished angle',
    shown: angle((bend) => bend.finalAngleDeg),
    note: ({ input }) =>
      input.die ? 'On the die that was chosen.' : 'On the right die this is the wanted angle.',
  },
  springback: {
    key: 'springbackDeg',
    name: 'the springback',
    shown: angle((bend) => bend.springbackDeg),
    note: ({ bend }) => spread(rangeText(bend.range?.springbackDeg, angleShown), '°', bend),
  },
  dieRadius: {
    key: 'dieSurfaceRadiusMm',
    name: 'the die’s surface radius',
    shown: length((bend) => bend.dieSurfaceRadiusMm),
    note: ({ bend, unit, input }) =>
      input.die
        ? 'As the chosen die is.'
        : spread(
            rangeText(bend.range?.dieSurfaceRadiusMm, (mm) => lengthShown(mm, unit)),
            unit,
            bend,
          ),
  },
  finalRadius: {
    key: 'finalRadiusMm',
    name: 'the radius that comes out',
    shown: length((bend) => bend.finalRadiusMm),
  },
  pressForce: {
    key: 'pressForceKn',
    name: 'the press force',
    shown: ({ bend, unit }) => forceShown(bend.pressForceKn, unit),
    note: ({ bend, unit }) => {
      const shown = (kn: number) => forceShown(kn, unit)
      const also = unit === 'in' ? `That is ${formatForce(bend.pressForceKn, { unit: 'kN' })}. ` : ''
      return also + (spread(rangeText(bend.range?.pressForceKn, shown), shown(0).unit ?? '', bend) ?? '')
    },
  },
  ramTravel: {
    key: 'ramTravelMm',
    name: 'the ram travel',
    shown: length((bend) => bend.ramTravelMm),
    note: () => 'From first touch. Stop short and creep up: the last degrees come quickly.',
  },
  freeLength: {
    key: 'freeLengthMm',
    name: 'the free length at full angle',
    shown: length((bend) => bend.freeLengthMm),
  },
  wallOutside: {
    key: 'wallOutsideMm.expected',
    name: 'the outer wall after the bend',
    shown: length((bend) => bend.wallOutsideMm.expected, 2),
  },
  wallInside: {
    key: 'wallInsideMm.expected',
    name: 'the inner wall after the bend',
    shown: length((bend) => bend.wallInsideMm.expected, 2),
  },
  widthOutside: {
    key: 'widthOutsideMm',
    name: 'the width of the outer face',
    shown: length((bend) => bend.widthOutsideMm ?? 0, 2),
  },
  widthInside: {
    key: 'widthInsideMm',
    name: 'the width of the inner face',
    shown: length((bend) => bend.widthInsideMm ?? 0, 2),
  },
  sag: {
    key: 'flangeSagMm',
    name: 'the sag of a face',
    shown: (asked) =>
      isHeld(asked.bend.flangeSagMm)
        ? { value: 'held' }
        : lengthShown(asked.bend.flangeSagMm ?? 0, asked.unit, 2),
    note: ({ bend, unit }) => {
      const { value } = lengthShown(bend.flangeSagMm ?? 0, unit, 3)
      return isHeld(bend.flangeSagMm)
        ? `Calculated as ${value} ${unit}, below what a gauge reads.`
        : undefined
    },
  },
  ovality: {
    key: 'ovalityPct',
    name: 'the ovality',
    shown: ({ bend }) => shareShown((bend.ovalityPct ?? 0) / 100, 2),
  },
  stretch: {
    key: 'outerStrain',
    name: 'the stretch outside',
    shown: ({ bend }) => shareShown(bend.outerStrain),
  },
  tear: {
    key: 'tearUtilisation',
    name: 'the stretch used of what is allowed',
    shown: ({ bend }) => shareShown(bend.tearUtilisation, 0),
    note: () => 'A trial piece decides.',
  },
} as const satisfies Record<string, Told>

export type SpecNumber = keyof typeof told

const spaced = (formula: string) => formula.replaceAll(' - ', ' − ')

/** The steps before the last one, folded away: whoever wants the whole way down can have it. */
function StepsBefore({ steps, unit }: { steps: readonly ChainLink[]; unit: LengthUnit }) {
  return (
    <details className="temper-steps">
      <summary>{steps.length === 1 ? 'The step before' : `The ${steps.length} steps before`}</summary>
      <ol className="plain-list stack stack-tight">
        {steps.map((step) => {
          const shown = inputShown(step.value, step.unit, unit)
          return (
            <li key={step.key}>
              <div className="chain-formula">{spaced(step.formula)}</div>
              <Quantity value={shown.value} unit={shown.unit} />{' '}
              <span className="muted small">{step.source}</span>
            </li>
          )
        })}
      </ol>
    </details>
  )
}

/** What the core's record says of one number: formula, what went in, source, trust, and the steps before. */
export function tracedChain(
  of: { name: string; shown: Shown; note?: string },
  steps: readonly ChainLink[],
  unit: LengthUnit,
  whole: boolean,
): NumberChain {
  const last = steps.at(-1)
  const before = steps.slice(0, -1)
  return {
    name: of.name,
    ...of.shown,
    ...(last && {
      formula: spaced(last.formula),
      inputs: last.inputs.map(([symbol, value, inputUnit]) => ({
        name: symbol,
        ...inputShown(value, inputUnit, unit),
      })),
      source: last.source,
      trust: last.trust,
    }),
    note: (
      <>
        {of.note}
        {whole && before.length > 0 && <StepsBefore steps={before} unit={unit} />}
      </>
    ),
  }
}

/** One number of a bend as it is shown. */
export function specNumber(number: SpecNumber, asked: SpecAsked): AskedNumber {
  return { name: told[number].name, ...told[number].shown(asked) }
}

/** Where one number of a bend comes from; with `whole`, down to what was entered. */
export function specChain(number: SpecNumber, asked: SpecAsked, whole = false): NumberChain {
  const one: Told = told[number]
  const of = { name: one.name, shown: one.shown(asked), note: one.note?.(asked) }
  if (one.key === undefined) return { name: of.name, ...of.shown, source: 'The drawing', trust: 'entered' }
  return tracedChain(of, asked.trace().chain(`bends.${asked.index}.${one.key}`), asked.unit, whole)
}
