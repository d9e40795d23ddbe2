import { cutReach } from '@/lib/core/drawing/end-cut'
import type { DrawnPart, EndCut } from '@/lib/core/drawing/part'
import { formatAngle, formatLength, formatNumber } from '@/lib/core/format'
import type { SpecInput, SpecMaterial } from '@/lib/core/spec/contract'
import { inchFromMm, type LengthUnit } from '@/lib/core/units'
import type { ShopUnits } from '@/lib/records/fields'
import { type PotFacts, pourFrom } from '@/lib/records/filler-alloy/rules'
import type { PartTyped } from '@/lib/records/part/schema'

export type PartBend = {
  straightBeforeMm: number
  angleDeg: number
  centrelineRadiusMm: number
  rotationDeg: number
}

/** A revision as the rules need it: what is drawn, made and judged. */
export type RevisionFacts = {
  shape: 'square' | 'rectangular' | 'round'
  widthMm: number
  heightMm: number
  wallMm: number
  cornerRadiusMm: number | null
  materialId: string
  bends: readonly PartBend[]
  straightAfterMm: number
  startCut: EndCut
  endCut: EndCut
  angleToleranceDeg: number
  lengthToleranceMm: number
  radiusToleranceMm: number | null
  sectionToleranceFraction: number | null
  generalTolerance: string
  weldedAfter: boolean
  couldHurt: boolean
  notesText: string
  typicalQuantity: number
}

export type Identity = { customerId: number; name: string; customerRef: string }

/** I, O, Q, S, X and Z are taken for figures or other marks. Source: ASME Y14.35, revision letters. */
const revisionLetters = 'ABCDEFGHJKLMNPRTUVWY'

/** A, B, ... Y, AA, AB, ... */
export function nextRevisionLetter(letter: string): string {
  const last = revisionLetters.indexOf(letter.slice(-1))
  if (letter === '' || last < 0) throw new RangeError(`"${letter}" is not a revision letter`)
  const head = letter.slice(0, -1)
  if (last < revisionLetters.length - 1) return head + revisionLetters[last + 1]
  return `${head === '' ? 'A' : nextRevisionLetter(head)}A`
}

export function drawnPart(revision: RevisionFacts): DrawnPart {
  const { shape, widthMm, heightMm, wallMm, cornerRadiusMm } = revision
  return {
    tube: { shape, widthMm, heightMm, wallMm, ...(cornerRadiusMm !== null && { cornerRadiusMm }) },
    bends: revision.bends.map(({ straightBeforeMm, angleDeg, centrelineRadiusMm, rotationDeg }) => ({
      straightBeforeMm,
      angleDeg,
      centrelineRadiusMm,
      rotationDeg,
    })),
    straightAfterMm: revision.straightAfterMm,
    startCut: revision.startCut,
    endCut: revision.endCut,
  }
}

/** A stored length as text for a field, in the shop's unit where it is a plain number there, that reads back as the same length. */
export function lengthForField(lengthMm: number, unit: LengthUnit): string {
  const plain = (value: number, decimals: number) => {
    const rounded = Number(value.toFixed(decimals))
    return Math.abs(rounded - value) < 1e-9 ? String(rounded) : null
  }
  const inches = inchFromMm(lengthMm)
  if (unit === 'mm') {
    const mm = plain(lengthMm, 4)
    if (mm !== null) return mm
    const inch = plain(inches, 6)
    return inch === null ? String(Number(lengthMm.toFixed(6))) : `${inch} in`
  }
  const parts = inches * 64
  if (Math.abs(parts - Math.round(parts)) < 1e-7)
    return formatLength(lengthMm, { unit: 'in', fractionOf: 64 }).replace(/\s*in$/u, '')
  const inch = plain(inches, 4)
  if (inch !== null) return inch
  return `${Number(lengthMm.toFixed(6))} mm`
}

const angleForField = (angleDeg: number): string => String(Number(angleDeg.toFixed(6)))

function cutForField(cut: EndCut, unit: LengthUnit): PartTyped['startCut'] {
  return {
    kind: cut.kind,
    angleDeg: cut.kind === 'square' || cut.angleDeg === undefined ? '' : angleForField(cut.angleDeg),
    rotationDeg: cut.kind === 'square' || !cut.rotationDeg ? '' : angleForField(cut.rotationDeg),
    onDiameterMm: cut.kind === 'saddle' ? lengthForField(cut.onDiameterMm, unit) : '',
  }
}

/** What the form starts from: the revision as somebody would type it. */
export function typedPart(identity: Identity, revision: RevisionFacts, units: ShopUnits): PartTyped {
  const length = (mm: number) => lengthForField(mm, units.lengthUnit)
  const maybe = (mm: number | null) => (mm === null ? '' : length(mm))
  return {
    customerId: String(identity.customerId),
    name: identity.name,
    customerRef: identity.customerRef,
    shape: revision.shape,
    widthMm: length(revision.widthMm),
    heightMm: revision.shape === 'rectangular' ? length(revision.heightMm) : '',
    wallMm: length(revision.wallMm),
    cornerRadiusMm: maybe(revision.cornerRadiusMm),
    materialId: revision.materialId,
    bends: revision.bends.map((bend) => ({
      straightBeforeMm: length(bend.straightBeforeMm),
      angleDeg: angleForField(bend.angleDeg),
      centrelineRadiusMm: length(bend.centrelineRadiusMm),
      rotationDeg: angleForField(bend.rotationDeg),
    })),
    straightAfterMm: length(revision.straightAfterMm),
    startCut: cutForField(revision.startCut, units.lengthUnit),
    endCut: cutForField(revision.endCut, units.lengthUnit),
    angleToleranceDeg: angleForField(revision.angleToleranceDeg),
    lengthToleranceMm: length(revision.lengthToleranceMm),
    radiusToleranceMm: maybe(revision.radiusToleranceMm),
    sectionTolerancePct:
      revision.sectionToleranceFraction === null
        ? ''
        : String(Number((revision.sectionToleranceFraction * 100).toFixed(6))),
    generalTolerance: revision.generalTolerance as PartTyped['generalTolerance'],
    weldedAfter: revision.weldedAfter,
    couldHurt: revision.couldHurt,
    notesText: revision.notesText,
    typicalQuantity: String(revision.typicalQuantity),
  }
}

const squareCut: PartTyped['startCut'] = { kind: 'square', angleDeg: '', rotationDeg: '', onDiameterMm: '' }

/** An empty form, with what most parts have filled in. */
export function emptyPart(units: ShopUnits): PartTyped {
  return {
    customerId: '',
    name: '',
    customerRef: '',
    shape: 'square',
    widthMm: '',
    heightMm: '',
    wallMm: '',
    cornerRadiusMm: '',
    materialId: '',
    bends: [{ straightBeforeMm: '', angleDeg: '', centrelineRadiusMm: '', rotationDeg: '0' }],
    straightAfterMm: '',
    startCut: squareCut,
    endCut: squareCut,
    angleToleranceDeg: '1',
    lengthToleranceMm: units.lengthUnit === 'in' ? '1/16' : '1.5',
    radiusToleranceMm: '',
    sectionTolerancePct: '',
    generalTolerance: 'ISO 2768-m',
    weldedAfter: false,
    couldHurt: false,
    notesText: '',
    typicalQuantity: '1',
  }
}

export function cutWords(cut: EndCut, unit: LengthUnit): string {
  if (cut.kind === 'square') return 'square'
  const turned = cut.rotationDeg ? `, turned ${formatAngle(cut.rotationDeg)}` : ''
  if (cut.kind === 'mitre') return `mitred ${formatAngle(cut.angleDeg)}${turned}`
  const leaning = cut.angleDeg === undefined || cut.angleDeg === 90 ? '' : ` at ${formatAngle(cut.angleDeg)}`
  return `saddle on ${formatLength(cut.onDiameterMm, unit)} tube${leaning}${turned}`
}

export function tubeText(
  tube: Pick<RevisionFacts, 'shape' | 'widthMm' | 'heightMm' | 'wallMm'>,
  unit: LengthUnit,
) {
  const bare = (mm: number) => formatLength(mm, unit).replace(/\s*(?:in|mm)$/u, '')
  const sides = tube.shape === 'round' ? bare(tube.widthMm) : `${bare(tube.widthMm)} × ${bare(tube.heightMm)}`
  return `${tube.shape} ${sides} × ${formatLength(tube.wallMm, unit)}`
}

export type Difference = { what: string; before: string; after: string }

const yesNo = (value: boolean) => (value ? 'yes' : 'no')

function rows(revision: RevisionFacts, unit: LengthUnit): [what: string, value: string][] {
  const length = (mm: number) =>
    formatLength(mm, unit === 'in' ? { unit, decimals: 4 } : { unit, decimals: 3 })
  const angle = (deg: number) => formatAngle(deg, { decimals: 3 })
  return [
    ['Shape', revision.shape],
    ['Width', length(revision.widthMm)],
    ['Height', length(revision.heightMm)],
    ['Wall', length(revision.wallMm)],
    ['Corner radius', revision.cornerRadiusMm === null ? 'usual' : length(revision.cornerRadiusMm)],
    ['Material', revision.materialId],
    ['Bends', String(revision.bends.length)],
    ...revision.bends.flatMap((bend, index): [string, string][] => [
      [`Bend ${index + 1}, straight before`, length(bend.straightBeforeMm)],
      [`Bend ${index + 1}, angle`, angle(bend.angleDeg)],
      [`Bend ${index + 1}, radius`, length(bend.centrelineRadiusMm)],
      [`Bend ${index + 1}, rotation`, angle(bend.rotationDeg)],
    ]),
    ['Last straight', length(revision.straightAfterMm)],
    ['Start cut', cutWords(revision.startCut, unit)],
    ['End cut', cutWords(revision.endCut, unit)],
    ['Angle tolerance', angle(revision.angleToleranceDeg)],
    ['Length tolerance', length(revision.lengthToleranceMm)],
    ['Radius tolerance', revision.radiusToleranceMm === null ? 'none' : length(revision.radiusToleranceMm)],
    [
      'Section tolerance',
      revision.sectionToleranceFraction === null
        ? 'usual'
        : `${formatNumber(revision.sectionToleranceFraction * 100, { decimals: 3 })} %`,
    ],
    ['General tolerance', revision.generalTolerance],
    ['Welded afterwards', yesNo(revision.weldedAfter)],
    ['Failure could hurt somebody', yesNo(revision.couldHurt)],
    ['Notes', revision.notesText],
    ['Usual quantity', String(revision.typicalQuantity)],
  ]
}

/** What one revision has otherwise than another, in the shop's words. */
export function revisionDifferences(
  before: RevisionFacts,
  after: RevisionFacts,
  unit: LengthUnit,
): Difference[] {
  const old = new Map(rows(before, unit))
  const now = new Map(rows(after, unit))
  return [...new Set([...old.keys(), ...now.keys()])]
    .map((what) => ({ what, before: old.get(what) ?? '–', after: now.get(what) ?? '–' }))
    .filter((row) => row.before !== row.after)
}

export type SetupFacts = {
  support: 'hollow' | 'sand' | 'lowMelt'
  supportSpanMm: number
  press: {
    capacityKn: number
    strokeMm: number | null
    supportNoseRadiusMm: number
    supportFrictionCoeff: number | null
  }
  die: { surfaceRadiusMm: number } | null
  strap: { thicknessMm: number; widthMm: number; yieldMPa: number; frictionCoeff: number | null } | null
  filler: PotFacts | null
}

/** What may stand in for the tables: the lot's certificate, and what finished bends taught. */
export type SpecOverrides = {
  /** A material of the shop's own, which the table does not have. */
  material?: SpecMaterial
  certificate?: { yieldMPa?: number | null; tensileMPa?: number | null; elongationPct?: number | null }
  springbackFactor?: number
}

type ShopAllowances = { pressUseFraction: number; trimMm: number; kerfMm: number }

function materialInput(revision: RevisionFacts, overrides: SpecOverrides): SpecMaterial {
  const { yieldMPa, tensileMPa, elongationPct } = overrides.certificate ?? {}
  return {
    ...(overrides.material ?? { id: revision.materialId }),
    ...(yieldMPa != null && { yieldMPa }),
    ...(tensileMPa != null && { tensileMPa }),
    ...(elongationPct != null && { elongationPct }),
  }
}

function methodInput(setup: SetupFacts): SpecInput['method'] {
  const { strap, filler } = setup
  return {
    support: setup.support,
    ...(strap && {
      strap: {
        thicknessMm: strap.thicknessMm,
        widthMm: strap.widthMm,
        yieldMPa: strap.yieldMPa,
        ...(strap.frictionCoeff !== null && { frictionCoeff: strap.frictionCoeff }),
      },
    }),
    ...(setup.support !== 'hollow' && filler && pourFrom(filler)),
  }
}

/** How far a slanted cut reaches out, where it does. */
function reachOf(name: 'startReachMm' | 'endReachMm', revision: RevisionFacts, cut: EndCut) {
  const { outMm } = cutReach(revision, cut)
  return outMm > 0 ? { [name]: outMm } : {}
}

/** The question the bend spec answers for a revision on a set-up; absent values are left to the model's defaults. */
export function specInputOf(
  revision: RevisionFacts,
  setup: SetupFacts,
  shop: ShopAllowances,
  overrides: SpecOverrides = {},
): SpecInput {
  const { press, die } = setup
  const { tube, bends } = drawnPart(revision)
  return {
    tube: { ...tube, wallMm: revision.wallMm },
    material: materialInput(revision, overrides),
    bends: [...bends],
    straightAfterMm: revision.straightAfterMm,
    method: methodInput(setup),
    press: {
      capacityKn: press.capacityKn,
      supportSpanMm: setup.supportSpanMm,
      supportNoseRadiusMm: press.supportNoseRadiusMm,
      ...(press.supportFrictionCoeff !== null && { supportFrictionCoeff: press.supportFrictionCoeff }),
      ...(press.strokeMm !== null && { strokeMm: press.strokeMm }),
      useFraction: shop.pressUseFraction,
    },
    ...(die && { die: { surfaceRadiusMm: die.surfaceRadiusMm } }),
    ...(overrides.springbackFactor !== undefined && { springbackFactor: overrides.springbackFactor }),
    trimMm: shop.trimMm,
    kerfMm: shop.kerfMm,
    ...reachOf('startReachMm', revision, revision.startCut),
    ...reachOf('endReachMm', revision, revision.endCut),
    ...(revision.sectionToleranceFraction !== null && {
      sectionToleranceFraction: revision.sectionToleranceFraction,
    }),
    weldedAfter: revision.weldedAfter,
  }
}
