import type { NumberChain } from '@/app/_ui/ask-number'
import { formatNumber } from '@/lib/core/format'
import type { BendAnswer, Range, SpecAnswer, SpecInput } from '@/lib/core/spec/contract'
import { inchFromMm, type LengthUnit } from '@/lib/core/units'

export type SpecAsked = {
  input: SpecInput
  answer: SpecAnswer
  bend: BendAnswer
  index: number
  unit: LengthUnit
}

type Shown = { value: string; unit: string }
type Input = NonNullable<NumberChain['inputs']>[number]

/** A length in the shop's unit, to 0.01 mm or 0.001 in unless finer is asked. */
export function lengthShown(mm: number, unit: LengthUnit, decimalsMm = 1): Shown {
  return unit === 'in'
    ? { value: formatNumber(inchFromMm(mm), { decimals: decimalsMm + 2, keepZeros: true }), unit: 'in' }
    : { value: formatNumber(mm, { decimals: decimalsMm, keepZeros: true }), unit: 'mm' }
}

export const angleShown = (deg: number): Shown => ({
  value: formatNumber(deg, { decimals: 1, keepZeros: true }),
  unit: '°',
})
export const forceShown = (kn: number): Shown => ({
  value: formatNumber(kn, { decimals: 1, keepZeros: true }),
  unit: 'kN',
})
export const shareShown = (share: number, decimals = 1): Shown => ({
  value: formatNumber(share * 100, { decimals, keepZeros: true }),
  unit: '%',
})
const momentShown = (nmm: number): Shown => ({
  value: formatNumber(nmm / 1e6, { decimals: 3 }),
  unit: 'kN·m',
})

/** What came between the weakest and the strongest tube that may come off the rack, one standard deviation either way. */
export function rangeText(range: Range | undefined, shown: (value: number) => Shown): string | undefined {
  if (!range) return undefined
  return `${shown(range.low).value} to ${shown(range.high).value}`
}

const model = 'beam plasticity, sections 3 to 6 of the bend model (DEVELOPERS.md names its books)'
const curve = 'Ramberg and Osgood, NACA TN 902 (1943), in the offset form of EN 1999-1-1 Annex E'

function materialInputs({ input }: SpecAsked): Input[] {
  const { material } = input
  const own: Input[] = []
  if (material.yieldMPa !== undefined)
    own.push({
      name: 'yield',
      value: formatNumber(material.yieldMPa),
      unit: 'MPa',
      from: 'certificate or own value',
    })
  return [{ name: 'material', value: material.id ?? 'own values', from: 'the part' }, ...own]
}

const inputOf = (name: string, shown: Shown, from?: string): Input => ({
  name,
  ...shown,
  ...(from && { from }),
})

function drawnInputs(asked: SpecAsked): Input[] {
  const { input, index, unit } = asked
  const drawn = input.bends[index]
  if (!drawn) return []
  return [
    inputOf('wanted angle', angleShown(drawn.angleDeg), 'the drawing'),
    inputOf('wanted radius', lengthShown(drawn.centrelineRadiusMm, unit), 'the drawing'),
  ]
}

const spreadNote = (asked: SpecAsked, text: string | undefined, unit: string) =>
  text === undefined
    ? asked.bend.range === null
      ? 'No range: a tube 6 % weaker or stronger could not be bent like this.'
      : undefined
    : `From a tube 6 % weaker to one 6 % stronger: ${text} ${unit}.`

const makers = {
  wantedAngle: ({ bend }) => ({
    name: 'the wanted angle',
    ...angleShown(bend.wantedAngleDeg),
    source: 'The drawing',
    trust: 'entered',
  }),
  loadedAngle: (asked) => ({
    name: 'the angle to load to',
    ...angleShown(asked.bend.loadedAngleDeg),
    formula: 'loaded = wrapped on the die + 2 × arm under load',
    inputs: [
      inputOf('wrapped on the die', angleShown(asked.bend.wrappedAngleDeg)),
      inputOf('one arm under load', angleShown(asked.bend.armLoadedDeg)),
      ...drawnInputs(asked),
      ...materialInputs(asked),
    ],
    source: model,
    trust: 'mechanics',
    note: 'What a protractor on the straight ends reads at full travel.',
  }),
  angleAtPress: (asked) => ({
    name: 'the angle at the press',
    ...angleShown(asked.bend.angleAtPressDeg),
    formula: 'at press = loaded − elastic return while the filler is still in',
    inputs: [
      inputOf('loaded', angleShown(asked.bend.loadedAngleDeg)),
      inputOf('tube’s moment', momentShown(asked.bend.tubeMomentNmm)),
      inputOf('filler’s moment', momentShown(asked.bend.fillerMomentNmm)),
    ],
    source: model,
    trust: 'mechanics',
    note: 'After the ram backs off, before the filler is melted out. A filler creeps: read it at once.',
  }),
  finalAngle: (asked) => ({
    name: 'the angle after melt-out',
    ...angleShown(asked.bend.finalAngleDeg),
    formula: 'final = at press − what comes back at melt-out',
    inputs: [
      inputOf('at press', angleShown(asked.bend.angleAtPressDeg)),
      inputOf('comes back at melt-out', angleShown(asked.bend.meltOutSpringbackDeg)),
    ],
    source: model,
    trust: 'mechanics',
    note: asked.input.die ? 'On the die that was chosen.' : 'On the right die this is the wanted angle.',
  }),
  springback: (asked) => ({
    name: 'the springback',
    ...angleShown(asked.bend.springbackDeg),
    formula: 'springback = loaded − final;  change of curvature = c · M_tube / (E I)',
    inputs: [
      inputOf('loaded', angleShown(asked.bend.loadedAngleDeg)),
      inputOf('final', angleShown(asked.bend.finalAngleDeg)),
      { name: 'c, the shop’s springback factor', value: formatNumber(asked.input.springbackFactor ?? 1) },
      inputOf('tube’s moment', momentShown(asked.bend.tubeMomentNmm)),
      { name: 'I', value: formatNumber(asked.answer.section.inertiaMm4, { decimals: 0 }), unit: 'mm⁴' },
      ...materialInputs(asked),
    ],
    source: `${model}; ${curve}`,
    trust: 'mechanics',
    note: spreadNote(asked, rangeText(asked.bend.range?.springbackDeg, angleShown), '°'),
  }),
  dieRadius: (asked) => ({
    name: 'the die’s surface radius',
    ...lengthShown(asked.bend.dieSurfaceRadiusMm, asked.unit),
    formula: asked.input.die ? 'as the chosen die is' : 'die radius = loaded centreline radius − h / 2',
    inputs: [
      inputOf('loaded centreline radius', lengthShown(asked.bend.loadedRadiusMm, asked.unit)),
      inputOf('h, height of the tube', lengthShown(asked.input.tube.heightMm, asked.unit, 2)),
      ...drawnInputs(asked),
    ],
    source: model,
    trust: asked.input.die ? 'entered' : 'mechanics',
    note: asked.input.die
      ? undefined
      : spreadNote(
          asked,
          rangeText(asked.bend.range?.dieSurfaceRadiusMm, (mm) => lengthShown(mm, asked.unit)),
          asked.unit,
        ),
  }),
  finalRadius: (asked) => ({
    name: 'the radius that comes out',
    ...lengthShown(asked.bend.finalRadiusMm, asked.unit),
    formula: '1 / final = 1 / loaded − change of curvature',
    inputs: [inputOf('loaded radius', lengthShown(asked.bend.loadedRadiusMm, asked.unit))],
    source: model,
    trust: 'mechanics',
  }),
  pressForce: (asked) => ({
    name: 'the press force',
    ...forceShown(asked.bend.pressForceKn),
    formula: 'F = 2 N (cos φ + g μ sin φ),  N = M_ext / (s + g μ a), the largest over the stroke',
    inputs: [
      inputOf('moment to bend everything', momentShown(asked.bend.externalMomentNmm)),
      inputOf('free length s', lengthShown(asked.bend.freeLengthMm, asked.unit)),
      inputOf('half the wrapped angle φ', angleShown(asked.bend.wrappedAngleDeg / 2)),
      inputOf('span', lengthShown(asked.input.press.supportSpanMm, asked.unit), 'the set-up'),
    ],
    source: 'Statics of a bar on two round supports with friction; moments by beam plasticity',
    trust: 'mechanics',
    note: spreadNote(asked, rangeText(asked.bend.range?.pressForceKn, forceShown), 'kN'),
  }),
  ramTravel: (asked) => ({
    name: 'the ram travel',
    ...lengthShown(asked.bend.ramTravelMm, asked.unit),
    formula: 'travel = R (1 − cos φ) + s sin φ + d (1 − cos φ) + bow / cos φ',
    inputs: [
      inputOf('R, loaded', lengthShown(asked.bend.loadedRadiusMm, asked.unit)),
      inputOf('s', lengthShown(asked.bend.freeLengthMm, asked.unit)),
      inputOf('φ', angleShown(asked.bend.wrappedAngleDeg / 2)),
    ],
    source:
      'Geometry of an arc and two straight arms, with the arms’ own bow; within 2 % of large-deflection statics',
    trust: 'mechanics',
    note: 'From first touch. Stop short and creep up: the last degrees come quickly.',
  }),
  freeLength: (asked) => ({
    name: 'the free length at full angle',
    ...lengthShown(asked.bend.freeLengthMm, asked.unit),
    formula: 's = (L / 2 − (R + d) sin φ) / cos φ',
    inputs: [
      inputOf('span L', lengthShown(asked.input.press.supportSpanMm, asked.unit), 'the set-up'),
      inputOf('R, loaded', lengthShown(asked.bend.loadedRadiusMm, asked.unit)),
    ],
    source: 'Plane geometry',
    trust: 'exact',
  }),
  wallOutside: (asked) => wallChain(asked, 'outer'),
  wallInside: (asked) => wallChain(asked, 'inner'),
  widthOutside: (asked) => widthChain(asked, 'outer', asked.bend.widthOutsideMm ?? 0),
  widthInside: (asked) => widthChain(asked, 'inner', asked.bend.widthInsideMm ?? 0),
  sag: (asked) => ({
    name: 'the sag of a face',
    ...lengthShown(asked.bend.flangeSagMm ?? 0, asked.unit, 2),
    formula: 'sag = p b⁴ / D × (5 − 4 b / (b + h)) / 384,  p = s t / R of the face',
    inputs: [inputOf('wall', lengthShown(asked.input.tube.wallMm, asked.unit, 2), 'the part')],
    source: 'Plate strip between webs under the inward pressure of its own stress, secant modulus',
    trust: 'screening',
    note: 'Below what a gauge reads it says “held”, not a size.',
  }),
  ovality: (asked) => ({
    name: 'the ovality',
    value: formatNumber(asked.bend.ovalityPct ?? 0, { decimals: 2 }),
    unit: '%',
    formula: 'ovality = 100 (D max − D min) / D',
    source: 'Brazier (1927), with ν = 0.5',
    trust: 'screening',
  }),
  stretch: (asked) => ({
    name: 'the stretch outside',
    ...shareShown(asked.bend.outerStrain),
    formula: 'e = (h / 2 − y_n) / (R + y_n)',
    inputs: [
      inputOf('R, loaded', lengthShown(asked.bend.loadedRadiusMm, asked.unit)),
      inputOf('shift of the neutral axis y_n', lengthShown(asked.bend.neutralAxisShiftMm, asked.unit, 2)),
    ],
    source: 'Plane sections stay plane',
    trust: 'mechanics',
  }),
  tear: (asked) => ({
    name: 'the stretch used of what is allowed',
    ...shareShown(asked.bend.tearUtilisation, 0),
    formula: 'used = stretch outside / (factor × elongation at break)',
    inputs: [
      inputOf('stretch outside', shareShown(asked.bend.outerStrain)),
      { name: 'factor', value: asked.input.method.strap ? '0.9, with a strap' : '0.7, without a strap' },
      inputOf('radius that would use it all', lengthShown(asked.bend.tearRadiusMm, asked.unit)),
    ],
    source: 'Common practice, no source',
    trust: 'screening',
    note: 'A trial piece decides.',
  }),
} as const satisfies Record<string, (asked: SpecAsked) => NumberChain>

function wallChain(asked: SpecAsked, side: 'outer' | 'inner'): NumberChain {
  const wall = side === 'outer' ? asked.bend.wallOutsideMm : asked.bend.wallInsideMm
  const strain = side === 'outer' ? asked.bend.outerStrain : asked.bend.innerStrain
  const shown = (mm: number) => lengthShown(mm, asked.unit, 2)
  return {
    name: `the ${side} wall after the bend`,
    ...shown(wall.expected),
    formula: 'held: t / (1 + e);  free: t (1 − ν e), elastic return taken off',
    inputs: [
      inputOf('wall', shown(asked.input.tube.wallMm), 'the part'),
      inputOf('strain e', shareShown(strain)),
    ],
    source: 'Constant volume: free section with Poisson’s contraction, held section with none round the tube',
    trust: 'mechanics',
    note: `Between ${shown(wall.low).value} and ${shown(wall.high).value} ${asked.unit}, as the section is held or free.`,
  }
}

function widthChain(asked: SpecAsked, side: 'outer' | 'inner', widthMm: number): NumberChain {
  const strain = side === 'outer' ? asked.bend.outerStrain : asked.bend.innerStrain
  return {
    name: `the width of the ${side} face`,
    ...lengthShown(widthMm, asked.unit, 2),
    formula: 'width = b (1 − ν e), elastic return taken off',
    inputs: [
      inputOf('b', lengthShown(asked.input.tube.widthMm, asked.unit, 2), 'the part'),
      inputOf('strain e', shareShown(strain)),
    ],
    source: 'Poisson’s contraction of a free section',
    trust: 'mechanics',
  }
}

export type SpecNumber = keyof typeof makers

/** Where one number of a bend comes from: its formula, what went in, the source and how far to trust it. */
export function specChain(number: SpecNumber, asked: SpecAsked): NumberChain {
  return makers[number](asked)
}

/** Sentences of the core have their lengths in mm: said in the shop's unit. */
export function inShopUnit(text: string, unit: LengthUnit): string {
  if (unit === 'mm') return text
  return text.replace(/(-?\d+(?:\.\d+)?) mm/g, (_all, mm: string) => {
    const { value } = lengthShown(Number(mm), 'in', mm.includes('.') ? 1 : 0)
    return `${value} in`
  })
}

const defaultWords: Readonly<Record<string, string>> = {
  'tube.cornerRadiusMm': 'outside corner radius, mm',
  'material.uniformStrain': 'uniform strain',
  'method.fillerId': 'filler',
  'method.fillerYieldMPa': 'yield of the filler, MPa',
  'method.fillerModulusMPa': 'modulus of the filler, MPa',
  'method.strap.frictionCoeff': 'friction of the strap',
  'press.supportFrictionCoeff': 'friction at the supports',
  'press.useFraction': 'share of the press that may be used',
  springbackFactor: 'springback factor',
}

/** A default the core used, 'press.supportFrictionCoeff 0.15', in words. */
export function defaultInWords(written: string): string {
  const [path = '', ...value] = written.split(' ')
  const number = Number(value.join(' '))
  const shown = Number.isFinite(number) ? formatNumber(number, { decimals: 3 }) : value.join(' ')
  return `${defaultWords[path] ?? path} ${shown}`
}
