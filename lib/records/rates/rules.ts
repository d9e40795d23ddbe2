import { minorUnitDigits } from '@/lib/core/cost/money'
import { operationTimeNotes } from '@/lib/core/cost/operation-times'
import { defaultShopRates, type ShopRates, shopRateNotes } from '@/lib/core/cost/shop-rates'
import { workCentreNames } from '@/lib/core/cost/work-centres'
import { formatNumber } from '@/lib/core/format'
import { typedLength, typedNumber } from '@/lib/records/shop/rules'

/** How one number of the rates is typed and shown; inside the program it is always in its own unit. */
export type RateKind =
  | { is: 'money'; unit: string }
  | { is: 'percent'; scale: 100 | 0.0001; min: number; max: number }
  | { is: 'length' }
  | { is: 'number'; unit: string; min: number; max: number }
  | { is: 'choice'; choices: readonly { value: string; label: string }[] }

const perUnit: Readonly<Record<string, string>> = {
  PerH: ' an hour',
  PerKg: ' a kg',
  PerM: ' a metre',
  PerLitre: ' a litre',
  PerBend: ' a bend',
}
const choicesOf: Readonly<Record<string, readonly { value: string; label: string }[]>> = {
  model: [
    { value: 'unit', label: 'each piece gets faster' },
    { value: 'cumulativeAverage', label: 'the average so far gets faster' },
  ],
  direction: [
    { value: 'up', label: 'up' },
    { value: 'nearest', label: 'to the nearest' },
    { value: 'down', label: 'down' },
  ],
}
const percentRange: Readonly<Record<string, readonly [min: number, max: number]>> = {
  marginPpm: [0, 95],
  overheadFactor: [0, 1000],
  rateFraction: [50, 100],
  firstPassYieldFraction: [1, 100],
  weldOperatingFactor: [1, 100],
}
const numberRange: Readonly<Record<string, { unit: string; min: number; max: number }>> = {
  sawRateMm2PerMin: { unit: 'mm² a minute', min: 1, max: 100_000 },
  weldSpeedMmPerMin: { unit: 'mm a minute', min: 1, max: 10_000 },
  tightAngleToleranceDeg: { unit: '°', min: 0, max: 10 },
  piecesPerFilling: { unit: 'pieces', min: 1, max: 100 },
  trialPieces: { unit: 'pieces', min: 0, max: 100 },
  hoursPerDay: { unit: 'h', min: 0.5, max: 24 },
}

/** What the number at this place of the rates is, by the unit in its name. */
export function rateKind(path: readonly string[]): RateKind {
  const name = [...path].reverse().find((key) => !/^(low|likely|high)$/.test(key) && knownName(key)) ?? ''
  const choices = choicesOf[name]
  if (choices) return { is: 'choice', choices }
  const range = numberRange[name]
  if (range) return { is: 'number', ...range }
  if (name.includes('Cents'))
    return { is: 'money', unit: perUnit[/Per[A-Z][a-z]*$/.exec(name)?.[0] ?? ''] ?? '' }
  const [min, max] = percentRange[name] ?? [0, 100]
  if (name.endsWith('Ppm')) return { is: 'percent', scale: 0.0001, min, max }
  if (/(Fraction|Factor)$/.test(name)) return { is: 'percent', scale: 100, min, max }
  if (name.endsWith('Mm')) return { is: 'length' }
  if (/days$/i.test(name)) return { is: 'number', unit: 'days', min: 0, max: 365 }
  return { is: 'number', unit: 'min', min: 0, max: 100_000 }
}

function knownName(key: string): boolean {
  return key in choicesOf || key in numberRange || /(Cents|Ppm|Fraction|Factor|Mm|[dD]ays|Minutes)/.test(key)
}

type Units = { readonly lengthUnit: 'in' | 'mm'; readonly currency: string }
type Tree = { readonly [key: string]: Tree | number | string }
export type TypedTree = { [key: string]: TypedTree | string }

const tree = (rates: ShopRates): Tree => rates as unknown as Tree

/** Every number of the rates as somebody would type it. */
export function typedRates(rates: ShopRates, units: Units): TypedTree {
  const walk = (node: Tree, path: readonly string[]): TypedTree =>
    Object.fromEntries(
      Object.entries(node).map(([key, value]) => [
        key,
        typeof value === 'object'
          ? walk(value, [...path, key])
          : typedRate(value, rateKind([...path, key]), units),
      ]),
    )
  return walk(tree(rates), [])
}

/** One number of the rates as somebody would type it. */
export function typedRate(value: number | string, kind: RateKind, units: Units): string {
  if (typeof value === 'string') return value
  if (kind.is === 'money') {
    const digits = minorUnitDigits(units.currency)
    return formatNumber(value / 10 ** digits, { decimals: digits, keepZeros: true })
  }
  if (kind.is === 'percent') return typedNumber(Number((value * kind.scale).toPrecision(12)))
  return kind.is === 'length' ? typedLength(value, units.lengthUnit) : typedNumber(value)
}

/** The unit beside the number. */
export function rateUnit(kind: RateKind, units: Units): string {
  if (kind.is === 'money') return `${units.currency}${kind.unit}`
  if (kind.is === 'percent') return '%'
  if (kind.is === 'length') return units.lengthUnit
  return kind.is === 'number' ? kind.unit : ''
}

/** A typed number, or several, with the unit after it; a length that carries its own unit gets no second one. */
export function withRateUnit(text: string, kind: RateKind, units: Units): string {
  return kind.is === 'length' && text.endsWith('mm') ? text : `${text} ${rateUnit(kind, units)}`.trim()
}

/**
 * Rates as they were kept, made whole: a number that a later release added takes its default, one that was
 * taken away is left out.
 */
export function wholeRates(kept: unknown): ShopRates {
  const walk = (standard: Tree, found: unknown): Tree => {
    const held = typeof found === 'object' && found !== null ? (found as Record<string, unknown>) : {}
    return Object.fromEntries(
      Object.entries(standard).map(([key, value]): [string, Tree[string]] => {
        const own = held[key]
        if (typeof value === 'object') return [key, walk(value, own)]
        return [key, typeof own === typeof value ? (own as number | string) : value]
      }),
    )
  }
  return walk(tree(defaultShopRates), kept) as unknown as ShopRates
}

export type RateDifference = { path: string; label: string; before: string; after: string }

/** What two sheets of rates differ in, in words for the history. */
export function rateDifferences(before: ShopRates, after: ShopRates, units: Units): RateDifference[] {
  const differences: RateDifference[] = []
  const walk = (one: Tree, other: Tree, path: readonly string[]): void => {
    for (const [key, value] of Object.entries(other)) {
      const was = one[key]
      const here = [...path, key]
      if (typeof value === 'object') walk((was ?? {}) as Tree, value, here)
      else if (was !== value && typeof was !== 'object' && was !== undefined) {
        const kind = rateKind(here)
        const text = (amount: number | string) => withRateUnit(typedRate(amount, kind, units), kind, units)
        differences.push({
          path: here.join('.'),
          label: rateLabel(here),
          before: text(was),
          after: text(value),
        })
      }
    }
  }
  walk(tree(before), tree(after), [])
  return differences
}

const partNames: Readonly<Record<string, string>> = {
  ...workCentreNames,
  low: 'hardly less',
  likely: 'most likely',
  high: 'hardly more',
  aluminium: 'aluminium',
  steel: 'steel',
  stainless: 'stainless',
  titanium: 'titanium',
  copper: 'copper',
  anneal: 'anneal',
  age: 'age',
  solutionAge: 'solution treat and age',
  centsPerKg: 'price by weight',
  minimumLotCents: 'least charge a lot',
  freightCents: 'freight both ways',
  days: 'days away',
  model: 'model',
  rateFraction: 'time at each doubling',
  stepCents: 'step',
  direction: 'direction',
}

/** Short names of the rates; what each means stands in shopRateNotes. */
export const rateNames: Readonly<Record<Exclude<keyof ShopRates, 'times'>, string>> = {
  labourCentsPerH: 'Labour',
  allowanceFraction: 'Rest, fatigue and delay',
  learning: 'Learning',
  overheadFactor: 'Overhead on labour',
  contingencyFraction: 'Contingency',
  marginPpm: 'Margin in the price',
  priceRounding: 'Round the price',
  fillerCentsPerKg: 'Filler alloy',
  fillerLossFraction: 'Filler lost at each pour',
  sandCentsPerLitre: 'Sand',
  sandLossFraction: 'Sand lost each time',
  consumablesPerJobCents: 'Small things, a job',
  consumablesPerPieceCents: 'Small things, a piece',
  boreOilCentsPerM: 'Bore oil and degreaser',
  weldConsumablesCentsPerM: 'Wire, gas and tungsten',
  dyePenetrantCentsPerBend: 'Dye penetrant',
  materialScrapFraction: 'Material scrapped',
  freightInCents: 'Freight in',
  heatTreat: 'Outside heat treatment',
  firstPassYieldFraction: 'Good the first time',
  dieMakeMinutes: 'Making a die',
  dieMaterialCents: 'Material of a die',
  strapMakeMinutes: 'Making a strap',
  strapMaterialCents: 'Material of a strap',
  hoursPerDay: 'Hours a day for one job',
  queueDays: 'Days before a new job begins',
  endTrimMm: 'End trim of a bar',
  keepOffcutFromMm: 'Keep an offcut from',
  offcutValueFraction: 'Worth of an offcut',
}

function rateLabel(path: readonly string[]): string {
  const [first = '', second = '', ...rest] = path
  const isTime = first === 'times'
  const head = isTime
    ? (operationTimeNotes[second as keyof typeof operationTimeNotes]?.meaning ?? second)
    : (rateNames[first as keyof typeof rateNames] ?? first)
  const tail = (isTime ? rest : path.slice(1)).map((key) => partNames[key] ?? key)
  return [head, ...tail].join(', ')
}

/** One line of the rates screen: a number, three of them, or a choice. */
export type RateLine = {
  readonly path: readonly string[]
  readonly label: string
  readonly kind: RateKind
  readonly isThreePoint: boolean
  readonly meaning: string
  readonly source: string
}

function linesAt(path: readonly string[], note: { meaning: string; source: string }): RateLine[] {
  const node = path.reduce<Tree | number | string>(
    (at, key) => (typeof at === 'object' ? (at[key] ?? '') : at),
    tree(defaultShopRates),
  )
  if (typeof node === 'object' && !('likely' in node)) {
    return Object.keys(node).flatMap((key) => linesAt([...path, key], note))
  }
  const isThreePoint = typeof node === 'object'
  return [
    {
      path,
      label: rateLabel(path),
      kind: rateKind([...path, ...(isThreePoint ? ['likely'] : [])]),
      isThreePoint,
      ...note,
    },
  ]
}

function lines(...keys: readonly Exclude<keyof ShopRates, 'times'>[]): RateLine[] {
  return keys.flatMap((key) => linesAt([key], shopRateNotes[key]))
}

/** The rates in the order and under the heads of the screen. */
export const rateGroups: readonly { title: string; lines: readonly RateLine[] }[] = [
  { title: 'Labour', lines: lines('labourCentsPerH', 'allowanceFraction', 'learning') },
  {
    title: 'From cost to price',
    lines: lines('overheadFactor', 'contingencyFraction', 'marginPpm', 'priceRounding'),
  },
  {
    title: 'Filler and sand',
    lines: lines('fillerCentsPerKg', 'fillerLossFraction', 'sandCentsPerLitre', 'sandLossFraction'),
  },
  {
    title: 'Small things',
    lines: lines(
      'consumablesPerJobCents',
      'consumablesPerPieceCents',
      'boreOilCentsPerM',
      'weldConsumablesCentsPerM',
      'dyePenetrantCentsPerBend',
    ),
  },
  {
    title: 'Tube',
    lines: lines(
      'materialScrapFraction',
      'freightInCents',
      'endTrimMm',
      'keepOffcutFromMm',
      'offcutValueFraction',
    ),
  },
  { title: 'Outside heat treatment', lines: lines('heatTreat') },
  {
    title: 'Tools',
    lines: lines('dieMakeMinutes', 'dieMaterialCents', 'strapMakeMinutes', 'strapMaterialCents'),
  },
  { title: 'Yield and days', lines: lines('firstPassYieldFraction', 'hoursPerDay', 'queueDays') },
  {
    title: 'Times of the operations',
    lines: Object.entries(operationTimeNotes).flatMap(([key, note]) => linesAt(['times', key], note)),
  },
]
