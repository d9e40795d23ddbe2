import type { AlloyFamily } from '@/lib/core/materials/alloys'
import type { OwnFiller } from '@/lib/core/materials/own-filler'
import type { TubeShape } from '@/lib/core/mechanics/section'
import type { TemperWay } from '@/lib/core/temper/way'

/** Raised by one whenever an answer may change for the same question. */
export const modelVersion = '1'

export type SpecTube = {
  shape: TubeShape
  /** Across the bend plane; outside diameter of a round tube. */
  widthMm: number
  /** In the bend plane. */
  heightMm: number
  wallMm: number
  cornerRadiusMm?: number
}

export type SpecMaterial = {
  /** Of the material table. Without it all but uniformStrain and reductionOfAreaPct are required. */
  id?: string
  family?: AlloyFamily
  elasticModulusMPa?: number
  yieldMPa?: number
  tensileMPa?: number
  uniformStrain?: number
  elongationPct?: number
  reductionOfAreaPct?: number
  poisson?: number
  densityKgM3?: number
}

export type SpecBend = {
  straightBeforeMm: number
  angleDeg: number
  centrelineRadiusMm: number
  rotationDeg: number
}

export type SpecStrap = { thicknessMm: number; widthMm: number; yieldMPa: number; frictionCoeff?: number }

export type SpecMethod = {
  support: 'hollow' | 'sand' | 'lowMelt'
  strap?: SpecStrap
  fillerId?: string
  /** A low-melt alloy that is in no table, in place of a fillerId. */
  ownFiller?: OwnFiller
  fillerYieldMPa?: number
  fillerModulusMPa?: number
  /** Of the pot as weighed; absent: the alloy's own. */
  fillerDensityKgM3?: number
}

export type SpecPress = {
  capacityKn: number
  supportSpanMm: number
  supportNoseRadiusMm: number
  supportFrictionCoeff?: number
  strokeMm?: number
  /** Share of the capacity a bend may use. */
  useFraction?: number
}

export type SpecInput = {
  tube: SpecTube
  material: SpecMaterial
  bends: SpecBend[]
  straightAfterMm: number
  method: SpecMethod
  press: SpecPress
  /** Absent: the answer says which die to make. */
  die?: { surfaceRadiusMm: number }
  springbackFactor?: number
  /** Shop settings: taken off after bending, both ends together, and lost to one saw cut. */
  trimMm?: number
  kerfMm?: number
  /** How far a slanted cut at each end reaches past the end of the centreline; absent: cut square. */
  startReachMm?: number
  endReachMm?: number
  /** The part's own limit on flange sag or loss of diameter, share of height; absent: the model's words. */
  sectionToleranceFraction?: number
  weldedAfter?: boolean
}

export type Trust = 'exact' | 'mechanics' | 'screening'
export type Range = { low: number; high: number }
export type Bounds = { low: number; expected: number; high: number }

export type Verdict = {
  check: 'press' | 'span' | 'stroke' | 'tear' | 'reduction' | 'flattening' | 'fillerBearing' | 'ramBearing'
  verdict: 'ok' | 'warn' | 'refuse' | 'holds' | 'marks' | 'flattens' | 'collapses'
  value: number
  limit: number
  unit: string
  trust: Trust
  /** What was met, what is allowed, what would make it a yes. */
  text: string
}

export type BendAnswer = {
  wantedAngleDeg: number
  wrappedAngleDeg: number
  loadedAngleDeg: number
  angleAtPressDeg: number
  finalAngleDeg: number
  springbackDeg: number
  meltOutSpringbackDeg: number
  armLoadedDeg: number
  armKeptDeg: number
  loadedRadiusMm: number
  finalRadiusMm: number
  dieSurfaceRadiusMm: number
  neutralAxisShiftMm: number
  /** Only where a die was given. */
  endShiftMm?: number
  outerStrain: number
  innerStrain: number
  wallOutsideMm: Bounds
  wallInsideMm: Bounds
  widthOutsideMm?: number
  widthInsideMm?: number
  flangeSagMm?: number
  ovalityPct?: number
  tubeMomentNmm: number
  fillerMomentNmm: number
  strapMomentNmm: number
  externalMomentNmm: number
  strapTensionN: number
  pressForceKn: number
  ramTravelMm: number
  freeLengthMm: number
  workingSpanMm: number
  /** Only where the press has not the force: the shortest span at which it has; null where no span brings it down. */
  pressSpanMm?: number | null
  tearUtilisation: number
  tearRadiusMm: number
  fillerBearing?: number
  range: { springbackDeg: Range; pressForceKn: Range; dieSurfaceRadiusMm: Range } | null
  verdicts: Verdict[]
  /** Ram force over travel along the stroke, from where the tube begins to lie on the die. */
  stroke: { wrappedAngleDeg: number; ramTravelMm: number; forceKn: number }[]
}

export type SpecAnswer = {
  section: {
    areaMm2: number
    inertiaMm4: number
    elasticModulusMm3: number
    plasticModulusMm3: number
    massKgPerM: number
    boreAreaMm2: number
  }
  developedLengthMm: number
  cutLengthMm: number
  /** What of the cut length is there for slanted end cuts; absent where there is none. */
  cutReachMm?: number
  gripStartMm: number
  gripEndMm: number
  points: [number, number, number][]
  bends: BendAnswer[]
  filler?: { id: string; volumeMm3: number; massKg: number; densityKgM3: number; liquidusC?: number }
  temper: TemperWay[]
  /** Why the filler asked for can't go into this tube; absent where it can, and where there is none. */
  fillerRefusal?: string
  defaultsUsed: string[]
  warnings: string[]
  modelVersion: string
}

export type SpecFault = { path: string; met: string; allowed: string }

/** The model has no answer to this question; each fault names the field, what was met and what is allowed. */
export class SpecRefusal extends Error {
  readonly faults: readonly SpecFault[]

  constructor(faults: readonly SpecFault[]) {
    super(faults.map((fault) => `${fault.path}: ${fault.met}; ${fault.allowed}`).join('\n'))
    this.name = 'SpecRefusal'
    this.faults = faults
  }
}
