import { crossingPieceCount } from '@/lib/core/cost/break-even'
import { dominatedRanges, unitCostCents } from '@/lib/core/cost/breaks'
import { ownershipCents } from '@/lib/core/cost/landed'
import { approximateRunFactor, pieceFactor, runFactor } from '@/lib/core/cost/learning'
import {
  invoiceTaxCents,
  minorUnitDigits,
  roundDecimalText,
  splitCents,
  taxCents,
} from '@/lib/core/cost/money'
import {
  type Spread,
  spreadMean,
  spreadQuantile,
  spreadVariance,
  textbookPertVariance,
} from '@/lib/core/cost/spread'
import {
  expectedStarts,
  rejectAllowance,
  rolledYield,
  startsForConfidence,
  startsVariance,
  yieldFromDefectsPerUnit,
} from '@/lib/core/cost/yield'
import { startsCdf } from '@/lib/core/statistics/counting'
import { nestPieces } from '@/lib/core/stock/nest'
import {
  celsiusFromFahrenheit,
  KG_M3_PER_POUND_PER_CUBIC_INCH,
  KG_PER_POUND,
  kilonewtonFromPoundForce,
  LITRE_PER_US_GALLON,
  MPA_PER_KSI,
  mpaFromKsi,
  NEWTON_PER_KIP,
  NEWTON_PER_POUND_FORCE,
  pressTons,
} from '@/lib/core/units'
import { outsideCheck, printed, within } from '@/tests/support/outside-check'

export function costChecks(): void {
  const unit = (rateFraction: number) => ({ model: 'unit', rateFraction }) as const
  const cumulative = { model: 'cumulativeAverage', rateFraction: 0.8 } as const
  const solved = {
    part: 'cost',
    source: 'Operations-management text, learning-curve solutions',
    kind: 'published',
    unit: 'h',
  } as const
  // The text works from a table of three digits: a tenth of a percent.
  outsideCheck(
    { ...solved, claim: '300 h at 80 percent: fifth piece', ...within(178.7, 0.1) },
    () => 300 * pieceFactor(5, unit(0.8)),
  )
  outsideCheck(
    { ...solved, claim: '300 h at 80 percent: five pieces', ...within(1121.4, 0.1) },
    () => 300 * runFactor(5, unit(0.8)),
  )
  outsideCheck(
    { ...solved, claim: '300 h at 80 percent: eighteen pieces', ...within(2914.8, 0.1) },
    () => 300 * runFactor(18, unit(0.8)),
  )
  outsideCheck(
    { ...solved, claim: '9 h at 70 percent: third piece', ...within(5.114, 0.1) },
    () => 9 * pieceFactor(3, unit(0.7)),
  )
  outsideCheck(
    { ...solved, claim: '15 h at 70 percent: three pieces', ...within(34.023, 0.1) },
    () => 15 * runFactor(3, unit(0.7)),
  )
  outsideCheck(
    {
      part: 'cost',
      claim: '90 percent, twentieth piece: share of the first',
      source: 'Stevenson, Operations Management, chapter 7S',
      kind: 'second hand',
      ...printed('0.634'),
      unit: '',
    },
    () => pieceFactor(20, unit(0.9)),
  )
  const wright = {
    part: 'cost',
    source: 'Wright’s cumulative average, worked table',
    kind: 'published',
    unit: 'h',
  } as const
  for (const [count, text] of [
    [2, '160.00'],
    [4, '256.00'],
    [8, '409.60'],
    [16, '655.36'],
  ] as const)
    outsideCheck(
      { ...wright, claim: `100 h at 80 percent: ${count} pieces`, ...printed(text) },
      () => 100 * runFactor(count, cumulative),
    )
  outsideCheck(
    {
      part: 'cost',
      claim: 'Midpoint formula, 20 pieces at 80 percent: too high by',
      source: 'Groover, Work Systems, chapter 19',
      kind: 'published',
      ...printed('0.258'),
      unit: '%',
    },
    () => 100 * (approximateRunFactor(20, 0.8) / runFactor(20, unit(0.8)) - 1),
  )

  const starts = {
    part: 'cost',
    source: 'Negative binomial, by binomial tails',
    kind: 'by hand',
    unit: '',
  } as const
  for (const [good, share, average, at95] of [
    [1, 0.5, '2.00', 5],
    [5, 0.8, '6.25', 9],
    [10, 0.9, '11.11', 13],
  ] as const) {
    outsideCheck(
      { ...starts, claim: `${good} good at ${share}: starts on average`, ...printed(average) },
      () => expectedStarts(good, share),
    )
    outsideCheck(
      {
        ...starts,
        claim: `${good} good at ${share}: starts to be 95 percent sure`,
        expected: at95,
        tolerance: 0,
      },
      () => startsForConfidence(good, share, 0.95),
    )
  }
  outsideCheck({ ...starts, claim: '10 good at 0.9: variance of starts', ...printed('1.2346') }, () =>
    startsVariance(10, 0.9),
  )
  outsideCheck({ ...starts, claim: '12 starts give 10 good at 0.9', ...printed('0.88913') }, () =>
    startsCdf(12, 10, 0.9),
  )
  outsideCheck(
    {
      part: 'cost',
      claim: 'Yield through three steps, .95 · .84 · .88',
      source: 'Throughput yield, a statistics program’s help text',
      kind: 'published',
      ...printed('0.70'),
      unit: '',
    },
    () => rolledYield([0.95, 0.84, 0.88]),
  )
  outsideCheck(
    {
      part: 'cost',
      claim: 'Yield from 0.10, 0.05, 0.008 defects a unit',
      source: 'Harry (2004), rolled throughput yield',
      kind: 'published',
      ...printed('0.85385'),
      unit: '',
    },
    () => rolledYield([0.1, 0.05, 0.008].map(yieldFromDefectsPerUnit)),
  )
  const reject = () =>
    rejectAllowance({
      yieldFraction: 0.5,
      setUpCents: 300,
      eachCents: 100,
      penaltyCents: 1600,
      runCount: 3,
    })[0]
  const hillier = { part: 'cost', source: 'Hillier and Lieberman, Operations Research', unit: '' } as const
  outsideCheck(
    { ...hillier, kind: 'memory', claim: 'Reject allowance: expected cost', expected: 675, tolerance: 1e-6 },
    () => reject()?.expectedCostCents ?? Number.NaN,
  )
  outsideCheck(
    { ...hillier, kind: 'memory', claim: 'Reject allowance: first run', expected: 2, tolerance: 0 },
    () => reject()?.startCount ?? Number.NaN,
  )

  const crossing = (makeFixed: number, makeEach: number, buyFixed: number, buyEach: number) => {
    const found = crossingPieceCount(
      { fixedCents: makeFixed, eachCents: makeEach },
      { fixedCents: buyFixed, eachCents: buyEach },
    )
    return found.found ? found.pieceCount : Number.NaN
  }
  const even = { part: 'cost', kind: 'published', tolerance: 1e-6, unit: '' } as const
  const chain = 'Supply-chain text, chapter 5 solutions'
  outsideCheck(
    { ...even, source: chain, claim: '125 000 + 15 Q against 5000 + 17 Q: even at', expected: 60_000 },
    () => crossing(125_000, 15, 5000, 17),
  )
  outsideCheck(
    { ...even, source: chain, claim: '25 000 + 8 Q against 3000 + 12 Q: even at', expected: 5500 },
    () => crossing(25_000, 8, 3000, 12),
  )
  outsideCheck(
    { ...even, source: hillier.source, claim: '100 000 + 75 Q against 100 Q: even at', expected: 4000 },
    () => crossing(100_000, 75, 0, 100),
  )

  const owned = (unitPriceCents: number, toolingCents: number, miles: number, qualityFraction: number) =>
    ownershipCents({
      pieceCount: 12_000,
      orderCents: 125,
      orderCount: 12,
      carryingFraction: 0.2,
      unitPriceCents,
      toolingCents,
      freightCents: (12_000 * 22 * 1.2 * miles) / 2000,
      qualityFraction,
    })
  const atv = {
    part: 'cost',
    source: 'Supply-chain text, chapter 2: total cost of ownership',
    kind: 'published',
    tolerance: 0.01,
    unit: '',
  } as const
  outsideCheck({ ...atv, claim: '12 000 pieces at 500: landed', expected: 6_213_300 }, () =>
    owned(500, 22_000, 125, 0.02),
  )
  outsideCheck({ ...atv, claim: '12 000 pieces at 498: landed', expected: 6_242_420 }, () =>
    owned(498, 20_000, 100, 0.03),
  )
  outsideCheck(
    {
      part: 'cost',
      claim: '100 at 9 beat fewer at 10: from',
      source: 'Break dominance, Q p2 / p1',
      kind: 'by hand',
      expected: 91,
      tolerance: 0,
      unit: '',
    },
    () =>
      dominatedRanges([
        { fromPieceCount: 1, unitPriceCents: 1000 },
        { fromPieceCount: 100, unitPriceCents: 900 },
      ])[0]?.fromPieceCount ?? Number.NaN,
  )
  outsideCheck(
    {
      part: 'cost',
      claim: 'Set-up 120.00 over 25 at 8.50',
      source: 'Set-up shared, S/Q + v',
      kind: 'by hand',
      expected: 13.3,
      tolerance: 0,
      unit: '',
    },
    () => unitCostCents(12_000, 850, 25) / 100,
  )

  const project = {
    part: 'cost',
    source: 'Project-management texts, three-point estimates',
    unit: '',
  } as const
  const threes = [
    { low: 3, likely: 5, high: 7 },
    { low: 2, likely: 6, high: 7 },
    { low: 2, likely: 5, high: 11 },
  ] as const
  const [first, second, third] = threes
  outsideCheck({ ...project, kind: 'published', claim: 'PERT mean of 3, 5, 7', ...printed('5.0') }, () =>
    spreadMean({ shape: 'pert', ...first }),
  )
  outsideCheck(
    { ...project, kind: 'published', claim: 'PERT deviation of 3, 5, 7', ...printed('0.67') },
    () => Math.sqrt(textbookPertVariance(first)),
  )
  outsideCheck({ ...project, kind: 'published', claim: 'PERT mean of 2, 6, 7', ...printed('5.5') }, () =>
    spreadMean({ shape: 'pert', ...second }),
  )
  const triangle: Spread = { shape: 'triangular', ...third }
  const triangular = {
    part: 'cost',
    source: 'Triangular distribution',
    kind: 'closed form',
    unit: '',
  } as const
  outsideCheck({ ...triangular, claim: 'Mean of 2, 5, 11', expected: 6, tolerance: 1e-9 }, () =>
    spreadMean(triangle),
  )
  outsideCheck({ ...triangular, claim: 'Variance of 2, 5, 11', expected: 3.5, tolerance: 1e-9 }, () =>
    spreadVariance(triangle),
  )
  outsideCheck({ ...triangular, claim: 'Tenth percentile of 2, 5, 11', ...printed('3.6432') }, () =>
    spreadQuantile(triangle, 0.1),
  )
  outsideCheck({ ...triangular, claim: 'Ninetieth percentile of 2, 5, 11', ...printed('8.6762') }, () =>
    spreadQuantile(triangle, 0.9),
  )
  outsideCheck(
    {
      part: 'cost',
      claim: 'Beta variance of 2, 5, 11',
      source: 'Modified beta, (μ−a)(b−μ)/7',
      kind: 'closed form',
      expected: 2.75,
      tolerance: 1e-9,
      unit: '',
    },
    () => spreadVariance({ shape: 'pert', ...third }),
  )

  const tax = {
    part: 'cost',
    source: 'Streamlined Sales and Use Tax Agreement, section 324',
    kind: 'published',
    tolerance: 0,
    unit: '¢',
  } as const
  outsideCheck({ ...tax, claim: '10.99 at 6.25 percent', expected: 69 }, () => taxCents(1099, 62_500))
  outsideCheck({ ...tax, claim: 'Three of 1.10 at 6 percent, each rounded', expected: 21 }, () =>
    invoiceTaxCents(
      [1, 2, 3].map(() => ({ amountCents: 110, ratePpm: 60_000 })),
      'perLine',
    ),
  )
  outsideCheck({ ...tax, claim: 'Three of 1.10 at 6 percent, rounded once', expected: 20 }, () =>
    invoiceTaxCents(
      [1, 2, 3].map(() => ({ amountCents: 110, ratePpm: 60_000 })),
      'perInvoice',
    ),
  )
  const rounding = {
    part: 'cost',
    source: 'ISO 80000-1 Annex B',
    kind: 'memory',
    tolerance: 0,
    unit: '¢',
  } as const
  outsideCheck({ ...rounding, claim: '2.665 to even', expected: 266 }, () =>
    Number(roundDecimalText('2.665', 2, 'halfEven')),
  )
  outsideCheck({ ...rounding, claim: '2.665 half up', expected: 267 }, () =>
    Number(roundDecimalText('2.665', 2)),
  )
  outsideCheck(
    {
      part: 'cost',
      claim: '100.00 over three: first part',
      source: 'Largest remainder (Hamilton)',
      kind: 'by hand',
      expected: 3334,
      tolerance: 0,
      unit: '¢',
    },
    () => splitCents(10_000, [1, 1, 1])[0] ?? Number.NaN,
  )
  for (const [code, digits, kind] of [
    ['USD', 2, 'second hand'],
    ['JPY', 0, 'second hand'],
    ['CLP', 0, 'second hand'],
    ['CLF', 4, 'second hand'],
    ['BHD', 3, 'second hand'],
    ['KWD', 3, 'memory'],
  ] as const)
    outsideCheck(
      {
        part: 'cost',
        claim: `${code}: decimals`,
        source: 'ISO 4217',
        kind,
        expected: digits,
        tolerance: 0,
        unit: '',
      },
      () => minorUnitDigits(code),
    )
}

export function cuttingChecks(): void {
  const bars = async (
    lengthMm: number,
    pieces: readonly (readonly [lengthMm: number, pieceCount: number])[],
    kerfMm = 0,
  ) => {
    const result = await nestPieces({
      rack: [],
      kerfMm,
      endTrimMm: 0,
      trimFarEnd: false,
      keepOffcutFromMm: 1e9,
      offcutValueCentsPerM: 0,
      pieces: pieces.map(([length, pieceCount]) => ({ key: `${length}`, lengthMm: length, pieceCount })),
      buyable: [{ key: 'bar', lengthMm, priceCents: 1 }],
    })
    if (!result.found) throw new Error(result.because)
    return result.plan
  }
  const rolls = [
    [1380, 22],
    [1520, 25],
    [1560, 12],
    [1710, 14],
    [1820, 18],
    [1880, 18],
    [1930, 20],
    [2000, 10],
    [2050, 12],
    [2100, 14],
    [2140, 16],
    [2150, 18],
    [2200, 20],
  ] as const
  const paper = {
    part: 'cutting',
    source: 'Cutting-stock problem, paper rolls, published optimum',
    kind: 'published',
  } as const
  outsideCheck(
    { ...paper, claim: '13 widths out of 5600: rolls', expected: 73, tolerance: 0, unit: '' },
    async () => (await bars(5600, rolls)).bars.length,
  )
  outsideCheck(
    { ...paper, claim: '13 widths out of 5600: waste', ...printed('0.401'), unit: '%' },
    async () => 100 * (await bars(5600, rolls)).wasteFraction,
  )
  outsideCheck(
    {
      part: 'cutting',
      claim: '45, 36, 31, 14 out of 100: rolls',
      source: 'Chvatal, Linear Programming (1983), chapter 13',
      kind: 'memory',
      expected: 453,
      tolerance: 0,
      unit: '',
    },
    async () =>
      (
        await bars(100, [
          [45, 97],
          [36, 610],
          [31, 395],
          [14, 211],
        ])
      ).bars.length,
  )
  const hand = {
    part: 'cutting',
    source: 'Kerf counted between cuts',
    kind: 'by hand',
    tolerance: 0,
    unit: '',
  } as const
  outsideCheck(
    { ...hand, claim: 'Six 80 and six 40 out of 240, no kerf: bars', expected: 3 },
    async () =>
      (
        await bars(240, [
          [80, 6],
          [40, 6],
        ])
      ).bars.length,
  )
  outsideCheck(
    { ...hand, claim: 'Six 80 and six 40 out of 240, kerf 1/8: bars', expected: 4 },
    async () =>
      (
        await bars(
          240,
          [
            [80, 6],
            [40, 6],
          ],
          0.125,
        )
      ).bars.length,
  )
}

export function unitChecks(): void {
  const nist = { part: 'units', source: 'NIST SP 811 (2008) Appendix B', kind: 'second hand' } as const
  for (const [claim, text, unit, got] of [
    ['One pound', '0.45359237', 'kg', () => KG_PER_POUND],
    ['One pound-force', '4.448222', 'N', () => NEWTON_PER_POUND_FORCE],
    ['One kip', '4448.222', 'N', () => NEWTON_PER_KIP],
    ['One ksi', '6.894757', 'MPa', () => MPA_PER_KSI],
    ['One short ton-force', '8.896443', 'kN', () => pressTons.usShort.kilonewtons],
    ['One long ton-force', '9.964016', 'kN', () => pressTons.long.kilonewtons],
    ['One US gallon', '3.785412', 'L', () => LITRE_PER_US_GALLON],
    ['One pound per cubic inch', '27679.90', 'kg/m³', () => KG_M3_PER_POUND_PER_CUBIC_INCH],
    ['158 °F', '70.0', '°C', () => celsiusFromFahrenheit(158)],
    ['36 ksi', '248.211', 'MPa', () => mpaFromKsi(36)],
    ['20 000 lbf', '88.9644', 'kN', () => kilonewtonFromPoundForce(20_000)],
  ] as const)
    outsideCheck({ ...nist, claim, ...printed(text), unit }, got)
}
