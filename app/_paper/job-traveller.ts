import type { OperationKey } from '@/lib/core/cost/operation'
import { formatDate, formatDateTime } from '@/lib/core/format'
import { alloyById } from '@/lib/core/materials/alloys'
import { readSentence } from '@/lib/core/sentence'
import { creepWarning, rememberedSpec } from '@/lib/core/spec/bend-spec'
import { type SpecInput, SpecRefusal } from '@/lib/core/spec/contract'
import { specUncertainty } from '@/lib/core/spec/uncertainty'
import { type BlankMarks, blankMarks } from '@/lib/core/templates/blank-marks'
import type { PaperSize } from '@/lib/core/templates/paper-size'
import type { LengthUnit } from '@/lib/core/units'
import { alloyInPot } from '@/lib/records/filler-alloy/rules'
import type { JobPlan } from '@/lib/records/job/rules'
import type { SetPoint as PlannedSetPoint } from '@/lib/records/operation/rules'
import { drawnPart, type RevisionFacts, tubeText } from '@/lib/records/part/rules'
import type { JobPapers, TravellerStanding } from '@/lib/records/traveller/rules'
import type { Hazard } from './cautions'
import { type PaperIssue, printedWidthMm } from './paper'
import { partLinework } from './part-linework'
import type { PaperQuantity } from './quantity'
import type { SetPoint, TravellerBend, TravellerData } from './traveller-data'

/** The shop as its papers show it. */
export type PaperShop = {
  name: string
  addressText: string
  contactText: string
  lengthUnit: LengthUnit
  paper: PaperSize
  timeZone: string
}

/** Who prints, when, and under which address the bench is reached. */
export type Printing = { shop: PaperShop; origin: string; by: string; atIso: string }

export function paperIssue(printing: Printing, revision: number): PaperIssue {
  const { shop, by, atIso } = printing
  return {
    paper: shop.paper,
    revision,
    printedOn: formatDateTime(atIso, { locale: 'en-US', timeZone: shop.timeZone }),
    printedAtIso: atIso,
    printedBy: by,
  }
}

export const dayText = (day: Date): string =>
  formatDate(day.toISOString(), { locale: 'en-US', timeZone: 'UTC' })

export const pieceName = (jobNumber: string, piece: number): string => `${jobNumber}/${piece}`

export const benchUrl = (origin: string, scanCode: string): string => `${origin}/bench/${scanCode}`

/** A material as people call it. */
export function materialName(materialId: string): string {
  const alloy = alloyById(materialId)
  if (!alloy) return materialId
  return alloy.name.includes(alloy.temper) ? alloy.name : `${alloy.name} ${alloy.temper}`
}

/** The marks on the straight blank of a part as planned; null where nothing is bent here. */
export function marksOf(revision: RevisionFacts, plan: Pick<JobPlan, 'spec' | 'input'>): BlankMarks | null {
  const { spec, input } = plan
  if (!spec || !input) return null
  return blankMarks({
    tube: revision,
    bends: input.bends.map((bend, index) => ({
      ...bend,
      neutralAxisShiftMm: spec.bends[index]?.neutralAxisShiftMm ?? 0,
      wrappedAngleDeg: spec.bends[index]?.wrappedAngleDeg ?? 0,
    })),
    straightAfterMm: revision.straightAfterMm,
    startCut: revision.startCut,
    endCut: revision.endCut,
    gripStartMm: spec.gripStartMm,
    gripEndMm: spec.gripEndMm,
    trimMm: input.trimMm ?? 0,
    cutLengthMm: spec.cutLengthMm,
    kerfMm: input.kerfMm ?? 0,
    countedForCutsMm: spec.cutReachMm ?? 0,
  })
}

/** The traveller of a job, or of one of its pieces, from its records. */
export function travellerOfJob(
  job: JobPapers & { id: number },
  standing: TravellerStanding,
  printing: Printing,
  onlyPiece?: number,
): TravellerData {
  const { plan, revision } = job
  const { shop, origin } = printing
  const issue = paperIssue(printing, job.travellerIssue)
  const blank = marksOf(revision, plan)
  const lots = new Map(job.stockPieces.map(({ lot }) => [lot.number, lot]))
  const pieces = job.pieces.filter(
    ({ number, status }) => status !== 'scrapped' && (onlyPiece === undefined || number === onlyPiece),
  )
  const { spec } = plan
  return {
    ...issue,
    ...(standing.changes.length > 0 && {
      void: { because: standing.changes.slice(0, 3).join('; '), since: issue.printedOn },
    }),
    shopName: shop.name,
    lengthUnit: shop.lengthUnit,
    job: {
      jobNumber: job.number,
      customerName: job.customer.name,
      ...(job.quoteLine && { orderNumber: `quote ${job.quoteLine.quote.number}` }),
      partNumber: revision.part.number,
      partRevision: revision.letter,
      partTitle: revision.part.name,
      ...(revision.part.customerRef && { drawingNumber: revision.part.customerRef }),
      pieceCount: job.quantity,
      dueOn: dayText(job.dueOn),
      benchUrl: `${origin}/jobs/${job.id}`,
    },
    part: {
      sectionText: tubeText(revision, shop.lengthUnit),
      materialText: materialName(revision.materialId),
      ...(plan.certificateText && {
        valuesFromText: `yield and tensile on the certificate of ${plan.certificateText}`,
      }),
      endTemperText: spec?.temper.find(({ isChosen }) => isChosen)?.endTemper ?? '',
      ...(blank &&
        spec && {
          cutLengthMm: blank.blankLengthMm,
          developedLengthMm: spec.developedLengthMm,
          massKg: (spec.section.massKgPerM * spec.developedLengthMm) / 1000,
        }),
    },
    drawings: [
      partLinework(drawnPart(revision), {
        widthMm: printedWidthMm(shop.paper) - 8,
        heightMm: 46,
        lengthUnit: shop.lengthUnit,
      }),
    ],
    stockLots: [...lots.values()].map((lot) => ({
      lotNumber: lot.number,
      heatNumber: lot.heatNumber,
      certificateText: lot.certificateFile?.name ?? 'none on file',
      placeText: lot.place,
    })),
    setUp: [],
    datumText: blank?.extraForCutsMm
      ? 'The blank is longer than the part’s centreline: the slanted cuts stand out past its ends.'
      : 'Mark the datum end with a 0; lay the tape once and do not move it.',
    marks: [...(blank?.marks ?? [])].sort((one, other) => one.atMm - other.atMm),
    sectionMeasures:
      revision.shape === 'round'
        ? ['height in the bend plane', 'width across it']
        : ['width inner face', 'width middle', 'width outer face'],
    bends: bendsOf(plan, blank),
    operations: job.operations.map((operation) => ({
      sequence: operation.position * 10,
      title: operation.name,
      instruction: operation.instruction,
      setPoints: setPointsOf(operation, plan, blank),
      hazards: hazardsOf(operation.key as OperationKey, plan),
      ...(operation.key === 'mark' && { shows: 'marks' as const }),
      ...(operation.key === 'trial' && { shows: 'trial' as const }),
      ...(operation.key === 'bend' && { bendNumbers: plan.spec?.bends.map((_, index) => index + 1) ?? [] }),
      plannedMin: operation.plannedSetUpMinutes + operation.plannedRunMinutesPerPiece * job.quantity,
      ...(holdPoints.has(operation.key) && { isHoldPoint: true }),
    })),
    trialSteps: spec ? trialSteps(plan) : [],
    ...(spec && {
      rangeText: `Ranges hold 19 times in 20: strength, wall, friction and die radius as they usually spread, springback factor ${plan.factor.value.toFixed(3)} ± ${(2 * plan.factor.sd).toFixed(2)}, from ${plan.factor.text}.`,
    }),
    remarks: [
      ...(plan.refusal ? [plan.refusal] : []),
      ...warningsOf(plan)
        .filter((warning) => warning !== creepWarning)
        .map((warning) => readSentence(warning, shop.lengthUnit)),
      ...(standing.newerRevision
        ? [
            `The part has a newer revision, ${standing.newerRevision}. This job makes revision ${revision.letter}: ask the office first.`,
          ]
        : []),
      ...(revision.couldHurt
        ? ['A failure of this part could hurt somebody: every bend is looked at with dye penetrant.']
        : []),
      ...(revision.notesText ? [revision.notesText] : []),
    ],
    pieces: pieces.map((piece) => ({
      pieceNumber: pieceName(job.number, piece.number),
      stockLotNumber: piece.stockPiece?.lot.number ?? '',
      heatNumber: piece.stockPiece?.lot.heatNumber ?? '',
      benchUrl: benchUrl(origin, piece.scanCode),
    })),
  }
}

/** What the model warns of by now: a job that was planned before it knew a warning is made all the same. */
function warningsOf({ input, spec }: JobPlan): readonly string[] {
  if (!input) return spec?.warnings ?? []
  try {
    return rememberedSpec(input).warnings
  } catch (cause) {
    if (!(cause instanceof SpecRefusal)) throw cause
    return spec?.warnings ?? []
  }
}

/** Work does not go on past these before a second person has looked. */
const holdPoints: ReadonlySet<string> = new Set(['trial', 'meltOut', 'inspect'])

function bendsOf(plan: JobPlan, blank: BlankMarks | null): TravellerBend[] {
  const { spec, input } = plan
  if (!spec || !input) return []
  const centres = (blank?.marks ?? []).filter(({ kind }) => kind === 'bendCentre')
  const spreads = spreadsOf(plan)
  const meltsOut = input.method.support === 'lowMelt'
  return spec.bends.map((bend, index) => {
    const around = (expectedDeg: number, sdDeg: number) => ({
      expectedDeg,
      lowDeg: expectedDeg - 2 * sdDeg,
      highDeg: expectedDeg + 2 * sdDeg,
    })
    const spread = spreads[index]
    return {
      bendNumber: index + 1,
      rotationDeg: input.bends[index]?.rotationDeg ?? 0,
      loadedAngleDeg: bend.loadedAngleDeg,
      atPress: around(bend.angleAtPressDeg, spread?.angleAtPressDeg.sd ?? 0),
      ...(meltsOut && { afterMeltOut: around(bend.finalAngleDeg, spread?.finalAngleDeg.sd ?? 0) }),
      wantedAngleDeg: bend.wantedAngleDeg,
      angleToleranceDeg: plan.tolerances.angleDeg,
      finalRadiusMm: bend.finalRadiusMm,
      ramTravelMm: bend.ramTravelMm,
      pressForceKn: bend.pressForceKn,
      centreMarkMm: centres[index]?.atMm ?? 0,
    }
  })
}

/** Ranges of plans printed lately. A plan's question never changes, and its answer takes longer than a page of print. */
const spreadsKept = new Map<string, ReturnType<typeof specUncertainty>>()
const MOST_SPREADS_KEPT = 200

/** A plan made by an older model may be refused by today's: then its angles stand without ranges. */
function spreadsOf({ input, factor }: JobPlan): ReturnType<typeof specUncertainty> {
  if (!input) return []
  const key = JSON.stringify([input, factor.sd])
  const known = spreadsKept.get(key)
  if (known) return known
  const found = freshSpreads(input, factor.sd)
  if (spreadsKept.size >= MOST_SPREADS_KEPT) spreadsKept.clear()
  spreadsKept.set(key, found)
  return found
}

function freshSpreads(input: SpecInput, factorSd: number): ReturnType<typeof specUncertainty> {
  try {
    return specUncertainty(input, { springbackFactor: factorSd })
  } catch (cause) {
    if (cause instanceof SpecRefusal) return []
    throw cause
  }
}

function setPointsOf(
  operation: { key: string; setPoints: readonly PlannedSetPoint[] },
  plan: JobPlan,
  blank: BlankMarks | null,
): SetPoint[] {
  const { setUp } = plan
  if (operation.key === 'saw' && blank) {
    return [{ label: 'Cut length', quantity: { lengthMm: blank.blankLengthMm } }]
  }
  if ((operation.key === 'bend' || operation.key === 'trial') && setUp) {
    const dieMm = setUp.die?.surfaceRadiusMm ?? plan.spec?.bends[0]?.dieSurfaceRadiusMm
    return [
      { label: 'Span between supports', quantity: { lengthMm: setUp.supportSpanMm } },
      { label: 'Die', quantity: { text: setUp.die?.shopNumber ?? 'to make' } },
      ...(dieMm === undefined ? [] : [{ label: 'Die surface radius', quantity: { lengthMm: dieMm } }]),
      { label: 'Strap', quantity: { text: setUp.strap?.shopNumber ?? 'none' } },
    ]
  }
  return operation.setPoints.map((point) => ({ label: point.label, quantity: quantityOf(point) }))
}

function quantityOf(point: PlannedSetPoint): PaperQuantity {
  switch (point.kind) {
    case 'length':
      return { lengthMm: point.value }
    case 'angle':
      return { angleDeg: point.value }
    case 'force':
      return { forceKn: point.value }
    case 'mass':
      return { massKg: point.value }
    case 'temperature':
      return { temperatureC: point.value }
    case 'text':
      return { text: point.value }
  }
}

/** What can hurt in an operation of this job. */
export function hazardsOf(key: OperationKey, plan: Pick<JobPlan, 'setUp'>): Hazard[] {
  const filler = plan.setUp?.filler ? alloyInPot(plan.setUp.filler) : undefined
  const isPoured = plan.setUp?.support === 'lowMelt'
  const poison: Hazard[] = filler?.containsLead || filler?.containsCadmium ? ['leadCadmium'] : []
  switch (key) {
    case 'saw':
    case 'sawMitres':
    case 'deburr':
    case 'trimEnds':
    case 'mitreEnds':
    case 'saddleEnds':
    case 'drill':
      return ['cutEdges']
    case 'fill':
      return ['moltenAlloy', 'sealedTube', ...poison]
    case 'setUpPress':
      return ['pressEjection']
    case 'trial':
    case 'bend':
      return ['pressEjection', ...(isPoured ? (['brittleFill'] as const) : [])]
    case 'meltOut':
      return ['moltenAlloy', 'sealedTube', ...poison, 'residue']
    case 'fitWeld':
    case 'age':
    case 'solutionAge':
      return isPoured ? ['residue'] : []
    default:
      return []
  }
}

function trialSteps(plan: JobPlan): string[] {
  const isPoured = plan.setUp?.support === 'lowMelt'
  return [
    'Saw one blank more, of the same lot. Same filling, strap, span and speed as the good ones.',
    'Bend it to the loaded angle of bend 1, slowly and without stopping short.',
    isPoured
      ? 'Back the ram off and read the angle at once: it is to lie in the range at the press. The filling creeps: a bend left filled reads differently.'
      : 'Back the ram off and read the angle: it is to lie in the range.',
    ...(isPoured ? ['Melt out, let it cool, read again: that is the angle that counts.'] : []),
    'Next loaded angle = loaded angle + wanted angle - angle measured last. Log the try at the bench: the next target comes from there.',
    'Look at the outside for cracks, at the inside for a fold, at the faces for sag. Go on only when a trial lies within half the tolerance.',
  ]
}
