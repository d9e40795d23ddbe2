import {
  acceptanceZone,
  conformanceProbability,
  fullGuard,
  gaugeStandardUncertainty,
  ninetyFiveGuard,
} from '@/lib/core/inspection/decision'
import {
  iso2768AngleDeg,
  iso2768LinearMm,
  iso13920AngleDeg,
  iso13920FormMm,
  iso13920LinearMm,
  type TableTolerance,
} from '@/lib/core/inspection/general-tolerances'
import { missProbability, samplePlan, sampleToCatch, successRunCount } from '@/lib/core/inspection/sampling'
import { capability, cpInterval, cpkInterval, cpkLowerBound } from '@/lib/core/statistics/capability'
import { chartConstants, individualsChart } from '@/lib/core/statistics/control-chart'
import { gaugeStudy } from '@/lib/core/statistics/gauge-study'
import { predictiveSd, updateNormal } from '@/lib/core/statistics/normal-update'
import { fitThroughOrigin } from '@/lib/core/statistics/regression'
import { observedFactor } from '@/lib/core/statistics/springback-factor'
import { lagOneCorrelation, mean, standardDeviation } from '@/lib/core/statistics/summary'
import {
  approximateOneSidedFactor,
  oneSidedToleranceFactor,
  twoSidedToleranceFactor,
} from '@/lib/core/statistics/tolerance-interval'
import { yieldBelief } from '@/lib/core/statistics/yield-belief'
import { outsideCheck, printed } from '@/tests/support/outside-check'

/** Digits that double precision holds of a certified value. */
const certified = (expected: number, share = 1e-10) => ({ expected, tolerance: Math.abs(expected) * share })

const mavro =
  `180 170 180 190 180 170 150 140 150 150 170 180 180 190 190 210 200 160 140 130 130 150 150 160 150
  140 130 140 150 140 150 160 150 160 190 200 200 210 220 230 240 250 270 260 260 260 270 260 250 240`
    .split(/\s+/)
    .map((digits) => Number(`2.00${digits}`))

export function learningChecks(): void {
  const strd = { part: 'learning', unit: '' } as const
  const alternating = (first: number, low: number, high: number): number[] => [
    first,
    ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
  ]
  for (const [set, kind, data, m, s, r, share] of [
    ['NumAcc1', 'published', [10000001, 10000003, 10000002], 10000002, 1, -0.5, 1e-10],
    ['NumAcc3', 'published', alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, -0.999, 1e-9],
    ['Mavro', 'second hand', mavro, 2.001856, 0.000429123454003053, 0.937989183438248, 1e-9],
  ] as const) {
    const row = { ...strd, source: 'NIST StRD, univariate summary statistics', kind }
    outsideCheck({ ...row, claim: `${set}: mean`, ...certified(m) }, () => mean(data))
    outsideCheck(
      { ...row, claim: `${set}: standard deviation`, ...certified(s, Math.max(share, 2e-9)) },
      () => standardDeviation(data),
    )
    outsideCheck(
      { ...row, claim: `${set}: lag-one correlation`, ...certified(r, Math.max(share, 2e-9)) },
      () => lagOneCorrelation(data),
    )
  }
  const origin = {
    ...strd,
    source: 'NIST StRD, linear regression through the origin',
    kind: 'published',
  } as const
  const one = () => fitThroughOrigin(Array.from({ length: 11 }, (_, i) => ({ x: 60 + i, y: 130 + i })))
  const two = () =>
    fitThroughOrigin([
      { x: 4, y: 3 },
      { x: 5, y: 4 },
      { x: 6, y: 4 },
    ])
  const digits = 1e-9
  outsideCheck(
    { ...origin, claim: 'NoInt1: slope', ...certified(2.07438016528926, digits) },
    () => one().slope,
  )
  outsideCheck(
    { ...origin, claim: 'NoInt1: its standard error', ...certified(0.0165289256198347, digits) },
    () => one().slopeStandardError,
  )
  outsideCheck(
    { ...origin, claim: 'NoInt1: residual deviation', ...certified(3.56753034006338, digits) },
    () => one().residualSd,
  )
  outsideCheck(
    { ...origin, claim: 'NoInt1: R²', ...certified(0.999365492298663, digits) },
    () => one().rSquared,
  )
  outsideCheck(
    { ...origin, claim: 'NoInt2: slope', ...certified(0.727272727272727, digits) },
    () => two().slope,
  )
  outsideCheck(
    { ...origin, claim: 'NoInt2: its standard error', ...certified(0.0420827318078432, digits) },
    () => two().slopeStandardError,
  )
  outsideCheck(
    { ...origin, claim: 'NoInt2: F', ...certified(298.666666666667, digits) },
    () => two().fStatistic,
  )

  const trout = () =>
    updateNormal(
      { mean: 30, sd: 4 },
      Array.from({ length: 12 }, () => ({ value: 32, sd: 2 })),
    )
  const bolstad = {
    part: 'learning',
    source: 'Bolstad, Introduction to Bayesian Statistics, chapter 11',
    kind: 'memory',
  } as const
  outsideCheck(
    { ...bolstad, claim: 'Length of trout, 12 readings: mean', ...printed('31.96'), unit: 'cm' },
    () => trout().mean,
  )
  outsideCheck(
    { ...bolstad, claim: 'Length of trout, 12 readings: deviation', ...printed('0.5714'), unit: 'cm' },
    () => trout().sd,
  )
  const conjugate = {
    part: 'learning',
    source: 'Normal belief with known spread, precisions added',
    kind: 'by hand',
    unit: '',
  } as const
  const three = () =>
    updateNormal(
      { mean: 0.97, sd: 0.01 },
      [0.958, 0.962, 0.955].map((value) => ({ value, sd: 0.006 })),
    )
  outsideCheck(
    { ...conjugate, claim: 'Three bends after 0.970 ± 0.010: mean', ...printed('0.959583') },
    () => three().mean,
  )
  outsideCheck(
    { ...conjugate, claim: 'Three bends after 0.970 ± 0.010: deviation', ...printed('0.003273') },
    () => three().sd,
  )
  outsideCheck({ ...conjugate, claim: 'The next bend: deviation', ...printed('0.006835') }, () =>
    predictiveSd(three(), 0.006),
  )
  outsideCheck(
    { ...conjugate, claim: 'Springback factor: (34 − 31.6) / (34 − 32)', ...printed('1.2000') },
    () =>
      observedFactor({
        loadedAngleDeg: 34,
        measuredFinalAngleDeg: 31.6,
        modelFinalAngleDeg: 32,
        gaugeSdDeg: 0.1,
      }).value,
  )
  outsideCheck(
    {
      part: 'learning',
      claim: '8 good and 2 bad first tries: share',
      source: 'Laplace, rule of succession',
      kind: 'closed form',
      expected: 0.75,
      tolerance: 1e-9,
      unit: '',
    },
    () => yieldBelief(8, 2).meanFraction,
  )
  outsideCheck(
    {
      part: 'learning',
      claim: '8 good and 2 bad first tries: deviation',
      source: 'Beta distribution, ab / ((a+b)² (a+b+1))',
      kind: 'closed form',
      ...printed('0.120096'),
      unit: '',
    },
    () => yieldBelief(8, 2).sdFraction,
  )
}

const value = (found: TableTolerance): number => (found.found ? found.plusMinus : Number.NaN)

function chartAndCapabilityChecks(): void {
  const walpole = {
    part: 'judging',
    source: 'Walpole and others, Probability and Statistics, Table A.22',
    kind: 'published',
    tolerance: 0.001,
    unit: '',
  } as const
  for (const [n, a2, d2, d3, c4, upperRange] of [
    [2, 1.88, 1.128, 0.853, 0.7979, 3.267],
    [5, 0.577, 2.326, 0.864, 0.94, 2.114],
    [10, 0.308, 3.078, 0.797, 0.9727, 1.777],
  ] as const) {
    const factors = () => chartConstants(n)
    outsideCheck({ ...walpole, claim: `Subgroups of ${n}: A2`, expected: a2 }, () => factors().a2)
    outsideCheck({ ...walpole, claim: `Subgroups of ${n}: d2`, expected: d2 }, () => factors().d2)
    outsideCheck({ ...walpole, claim: `Subgroups of ${n}: d3`, expected: d3 }, () => factors().d3)
    outsideCheck({ ...walpole, claim: `Subgroups of ${n}: c4`, expected: c4 }, () => factors().c4)
    outsideCheck(
      { ...walpole, claim: `Subgroups of ${n}: D4`, expected: upperRange },
      () => factors().upperRange,
    )
  }
  const chart = () => individualsChart([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1])
  const moving = {
    part: 'judging',
    source: 'NIST/SEMATECH e-Handbook 6.3.2.2',
    kind: 'second hand',
    unit: '',
  } as const
  outsideCheck(
    { ...moving, claim: 'Individuals chart: mean moving range', ...printed('1.8778') },
    () => chart().meanMovingRange,
  )
  outsideCheck(
    { ...moving, claim: 'Individuals chart: upper limit', ...printed('55.8041', 2) },
    () => chart().upperLimit,
  )
  outsideCheck(
    { ...moving, claim: 'Individuals chart: lower limit', ...printed('45.8159', 2) },
    () => chart().lowerLimit,
  )
  const able = () => capability({ lower: 8, upper: 20, mean: 16, sd: 2, target: 14 })
  const handbook = {
    part: 'judging',
    source: 'NIST/SEMATECH e-Handbook 6.1.6',
    kind: 'second hand',
    unit: '',
  } as const
  outsideCheck({ ...handbook, claim: 'Capability: Cp', ...printed('1.0000') }, () => able().cp)
  outsideCheck({ ...handbook, claim: 'Capability: Cpk', ...printed('0.6667') }, () => able().cpk)
  outsideCheck({ ...handbook, claim: 'Capability: Cpl', ...printed('1.3333') }, () => able().cpLower)
  outsideCheck({ ...handbook, claim: 'Capability: k', ...printed('0.3333') }, () => able().offCentre)
  outsideCheck(
    {
      part: 'judging',
      claim: 'Cp of 2.29 from 20 pieces: least',
      source: 'Montgomery, Introduction to Statistical Quality Control',
      kind: 'memory',
      // The book works on from 2.29, already rounded.
      ...printed('1.57', 2),
      unit: '',
    },
    () => cpInterval(24 / (6 * 1.75), 20).low,
  )
  outsideCheck(
    {
      part: 'judging',
      claim: 'Cp of 2.29 from 20 pieces: most',
      source: 'Montgomery, Introduction to Statistical Quality Control',
      kind: 'memory',
      ...printed('3.01'),
      unit: '',
    },
    () => cpInterval(24 / (6 * 1.75), 20).high,
  )
  const bissell = { part: 'judging', source: 'Bissell’s formula for Cpk', kind: 'by hand', unit: '' } as const
  outsideCheck(
    { ...bissell, claim: 'Cpk 1.33 of 20: least', ...printed('0.883') },
    () => cpkInterval(1.33, 20).low,
  )
  outsideCheck(
    { ...bissell, claim: 'Cpk 1.33 of 20: most', ...printed('1.777') },
    () => cpkInterval(1.33, 20).high,
  )
  for (const [count, text] of [
    [10, '0.786'],
    [30, '1.026'],
    [100, '1.165'],
  ] as const)
    outsideCheck({ ...bissell, claim: `Cpk 1.33 of ${count}: surely`, ...printed(text) }, () =>
      cpkLowerBound(1.33, count),
    )

  const wafers = { share: 0.9, confidence: 0.99 }
  const prc263 = {
    part: 'judging',
    source: 'NIST/SEMATECH e-Handbook 7.2.6.3',
    kind: 'published',
    unit: '',
  } as const
  outsideCheck({ ...prc263, claim: '43 wafers: two-sided factor by Howe', ...printed('2.2173') }, () =>
    twoSidedToleranceFactor(43, wafers),
  )
  outsideCheck({ ...prc263, claim: '43 wafers: one-sided factor by Natrella', ...printed('1.8752') }, () =>
    approximateOneSidedFactor(43, wafers),
  )
  const scipy = {
    part: 'judging',
    source: 'scipy, noncentral t and chi-square',
    kind: 'independent',
    unit: '',
  } as const
  for (const [count, one, two] of [
    [3, '7.656', '9.993'],
    [5, '4.203', '5.094'],
    [10, '2.911', '3.382'],
    [30, '2.220', '2.550'],
  ] as const) {
    const most = { share: 0.95, confidence: 0.95 }
    outsideCheck({ ...scipy, claim: `${count} pieces, 95/95: one-sided factor`, ...printed(one, 2) }, () =>
      oneSidedToleranceFactor(count, most),
    )
    outsideCheck(
      { ...scipy, claim: `${count} pieces, 95/95: two-sided factor by Howe`, ...printed(two, 2) },
      () => twoSidedToleranceFactor(count, most),
    )
  }
  const study = () => gaugeStudy({ repeatability: 0.03997, reproducibility: 0.05146, part: 1.08645 }, 8)
  const aiag = {
    part: 'judging',
    source: 'AIAG Measurement Systems Analysis, a published crossed study',
    kind: 'second hand',
  } as const
  outsideCheck(
    { ...aiag, claim: 'Gauge study: share of variance', ...printed('7.76'), unit: '%' },
    () => study().contributionPct,
  )
  outsideCheck(
    { ...aiag, claim: 'Gauge study: share of spread', ...printed('27.86'), unit: '%' },
    () => study().studyPct,
  )
  outsideCheck(
    { ...aiag, claim: 'Gauge study: share of tolerance', ...printed('22.68'), unit: '%' },
    () => study().tolerancePct ?? Number.NaN,
  )
  outsideCheck(
    { ...aiag, claim: 'Gauge study: distinct categories', expected: 4, tolerance: 0, unit: '' },
    () => study().distinctCategories,
  )
}

function decisionChecks(): void {
  const angle = { lower: 89, upper: 91, expandedUncertainty: 0.5 }
  const jcgm = {
    part: 'judging',
    source: 'JCGM 106:2012: Φ((U−y)/u) − Φ((L−y)/u)',
    kind: 'by hand',
    unit: '',
  } as const
  outsideCheck(
    { ...jcgm, claim: '90 ± 1° read 90.5°, u 0.25: chance to conform', ...printed('0.97725') },
    () => conformanceProbability({ ...angle, value: 90.5 }),
  )
  const iso = { part: 'judging', source: 'ISO 14253-1', kind: 'memory', unit: '°' } as const
  outsideCheck(
    { ...iso, claim: '90 ± 1°, U 0.5°, guard U: passes to', ...printed('90.50') },
    () => acceptanceZone({ ...angle, rule: fullGuard })?.upper ?? Number.NaN,
  )
  outsideCheck(
    { ...iso, claim: '90 ± 1°, U 0.5°, guard 1.645 u: passes to', ...printed('90.589') },
    () => acceptanceZone({ ...angle, rule: ninetyFiveGuard })?.upper ?? Number.NaN,
  )
  const gum = { part: 'judging', source: 'JCGM 100 (GUM): r/√12, a/√3', kind: 'memory', unit: '' } as const
  outsideCheck({ ...gum, claim: 'Gauge reading to 0.1: standard uncertainty', ...printed('0.028868') }, () =>
    gaugeStandardUncertainty({ resolution: 0.1, limitOfError: 0 }),
  )
  outsideCheck({ ...gum, claim: 'Reading to 0.1, error to 0.2: together', ...printed('0.119024') }, () =>
    gaugeStandardUncertainty({ resolution: 0.1, limitOfError: 0.2 }),
  )

  for (const [size, fine, medium, coarse] of [
    [5, 0.05, 0.1, 0.3],
    [20, 0.1, 0.2, 0.5],
    [100, 0.15, 0.3, 0.8],
    [300, 0.2, 0.5, 1.2],
    [800, 0.3, 0.8, 2],
    [1500, 0.5, 1.2, 3],
  ] as const) {
    const row = {
      part: 'judging',
      source: 'ISO 2768-1:1989 Table 1',
      kind: 'second hand',
      tolerance: 0,
      unit: 'mm',
    } as const
    outsideCheck({ ...row, claim: `${size} mm, fine: ±`, expected: fine }, () =>
      value(iso2768LinearMm(size, 'f')),
    )
    outsideCheck({ ...row, claim: `${size} mm, medium: ±`, expected: medium }, () =>
      value(iso2768LinearMm(size, 'm')),
    )
    outsideCheck({ ...row, claim: `${size} mm, coarse: ±`, expected: coarse }, () =>
      value(iso2768LinearMm(size, 'c')),
    )
  }
  for (const [side, minutes] of [
    [10, 60],
    [50, 30],
    [120, 20],
    [400, 10],
    [401, 5],
  ] as const)
    outsideCheck(
      {
        part: 'judging',
        source: 'ISO 2768-1:1989 Table 3',
        kind: 'second hand',
        claim: `Angle, shorter side ${side} mm, medium: ±`,
        expected: minutes,
        tolerance: 1e-6,
        unit: '′',
      },
      () => 60 * value(iso2768AngleDeg(side, 'm')),
    )
  for (const [size, a, b, c] of [
    [120, 1, 2, 3],
    [400, 1, 2, 4],
    [1000, 2, 3, 6],
    [2000, 3, 4, 8],
    [4000, 4, 6, 11],
  ] as const) {
    const row = {
      part: 'judging',
      source: 'ISO 13920:1996',
      kind: 'second hand',
      tolerance: 0,
      unit: 'mm',
    } as const
    outsideCheck({ ...row, claim: `Weldment ${size} mm, class A: ±`, expected: a }, () =>
      value(iso13920LinearMm(size, 'A')),
    )
    outsideCheck({ ...row, claim: `Weldment ${size} mm, class B: ±`, expected: b }, () =>
      value(iso13920LinearMm(size, 'B')),
    )
    outsideCheck({ ...row, claim: `Weldment ${size} mm, class C: ±`, expected: c }, () =>
      value(iso13920LinearMm(size, 'C')),
    )
  }
  outsideCheck(
    {
      part: 'judging',
      source: 'ISO 13920:1996',
      kind: 'second hand',
      claim: 'Angle, leg to 400 mm, class B: slope',
      expected: 13,
      tolerance: 0.5,
      unit: 'mm/m',
    },
    () => 1000 * Math.tan((value(iso13920AngleDeg(400, 'B')) * Math.PI) / 180),
  )
  outsideCheck(
    {
      part: 'judging',
      source: 'ISO 13920:1996',
      kind: 'second hand',
      claim: 'Straightness, 1000 mm, class F',
      expected: 3,
      tolerance: 0,
      unit: 'mm',
    },
    () => value(iso13920FormMm(1000, 'F')),
  )

  for (const [lot, count] of [
    [8, 2],
    [15, 3],
    [25, 5],
    [50, 8],
    [90, 13],
    [150, 20],
    [280, 32],
    [500, 50],
  ] as const)
    outsideCheck(
      {
        part: 'judging',
        source: 'ISO 2859-1, general level II',
        kind: 'second hand',
        claim: `Lot of ${lot}: sample`,
        expected: count,
        tolerance: 0,
        unit: '',
      },
      () => samplePlan(lot).sampleCount,
    )
  const run = {
    part: 'judging',
    source: 'Success run: ln(1 − C) / ln R, rounded up',
    kind: 'closed form',
    tolerance: 0,
    unit: '',
  } as const
  for (const [confidence, reliability, count] of [
    [0.95, 0.95, 59],
    [0.9, 0.9, 22],
    [0.95, 0.9, 29],
    [0.95, 0.99, 299],
  ] as const)
    outsideCheck(
      { ...run, claim: `${confidence} sure of ${reliability}: good ones in a row`, expected: count },
      () => successRunCount(confidence, reliability),
    )
  const finite = {
    part: 'judging',
    source: 'Whole-number binomials of a finite lot',
    kind: 'by hand',
    unit: '',
  } as const
  outsideCheck(
    { ...finite, claim: '5 of 20 miss both bad ones: C(18,5)/C(20,5)', ...printed('0.55263') },
    () => missProbability(20, 2, 5),
  )
  for (const [lot, bad, count] of [
    [10, 1, 9],
    [20, 2, 14],
    [50, 5, 18],
  ] as const)
    outsideCheck(
      {
        ...finite,
        claim: `${bad} bad of ${lot}: sample to catch one, 90 percent`,
        expected: count,
        tolerance: 0,
      },
      () => sampleToCatch(lot, bad, 0.9),
    )
}

export function judgingChecks(): void {
  chartAndCapabilityChecks()
  decisionChecks()
}
