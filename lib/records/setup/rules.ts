import { formatLength } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import { alloyInPot, isSandPot, type PotFacts } from '@/lib/records/filler-alloy/rules'

export type PressOption = {
  id: number
  shopNumber: string
  name: string
  capacityKn: number
  strokeMm: number | null
  supportNoseRadiusMm: number
  supportFrictionCoeff: number | null
  minimumSpanMm: number
  maximumSpanMm: number
  retired: boolean
}
export type DieOption = {
  id: number
  shopNumber: string
  surfaceRadiusMm: number
  grooveWidthMm: number | null
  arcDeg: number | null
  retired: boolean
}
export type StrapOption = {
  id: number
  shopNumber: string
  thicknessMm: number
  widthMm: number
  lengthMm: number
  yieldMPa: number
  frictionCoeff: number | null
  retired: boolean
}
export type FillerOption = PotFacts & {
  densityKgM3: number | null
  id: number
  shopNumber: string
  name: string
  retired: boolean
}

/** The shop's equipment as a set-up is chosen from it. */
export type Tooling = {
  presses: PressOption[]
  dies: DieOption[]
  straps: StrapOption[]
  fillers: FillerOption[]
}

type Fault = { field: 'supportSpanMm' | 'fillerId'; message: string }

/** What the press and the filler can't do, told at the field it concerns; null where they can. */
export function setupFault(
  setup: {
    support: 'hollow' | 'sand' | 'lowMelt'
    supportSpanMm: number
    press: Pick<PressOption, 'shopNumber' | 'minimumSpanMm' | 'maximumSpanMm'>
    filler: Pick<FillerOption, 'name' | 'fillerId' | 'own'> | null
  },
  unit: LengthUnit,
): Fault | null {
  const { press, filler, support, supportSpanMm } = setup
  if (supportSpanMm < press.minimumSpanMm || supportSpanMm > press.maximumSpanMm) {
    const show = (mm: number) => formatLength(mm, unit)
    return {
      field: 'supportSpanMm',
      message: `Allowed on ${press.shopNumber}: ${show(press.minimumSpanMm)} to ${show(press.maximumSpanMm)}; met: ${show(supportSpanMm)}`,
    }
  }
  if (support === 'lowMelt' && filler === null)
    return { field: 'fillerId', message: 'Choose the pot the alloy comes from' }
  if (filler === null || support === 'hollow') return null
  const isSand = isSandPot(filler)
  return isSand === (support === 'sand')
    ? null
    : {
        field: 'fillerId',
        message: `${filler.name} is ${isSand ? 'sand' : 'a low-melt alloy'}: choose one that fits`,
      }
}

/** A set-up to begin with where none was chosen yet: the strongest press, a middling span, the bore as it mostly is. */
export function firstSetup(
  tooling: Tooling,
  tube: { heightMm: number; centrelineRadiusMm: number },
  unit: LengthUnit,
) {
  const press = [...tooling.presses].sort((a, b) => b.capacityKn - a.capacityKn)[0]
  if (!press) return null
  const filler = tooling.fillers.find((pot) => alloyInPot(pot)?.kind === 'lowMelt')
  const stepMm = unit === 'in' ? 12.7 : 10
  const wishedMm = Math.round(Math.max(8 * tube.heightMm, 1.4 * tube.centrelineRadiusMm) / stepMm) * stepMm
  return {
    pressId: press.id,
    supportSpanMm: Math.min(Math.max(wishedMm, press.minimumSpanMm), press.maximumSpanMm),
    support: filler ? ('lowMelt' as const) : ('hollow' as const),
    fillerId: filler?.id ?? null,
    dieId: null,
    strapId: null,
  }
}

type Choice = {
  support: 'hollow' | 'sand' | 'lowMelt'
  supportSpanMm: number
  pressId: number
  dieId: number | null
  strapId: number | null
  fillerId: number | null
}

/** The chosen equipment itself; null where the press is not among the shop's. A filler counts only where the bore is filled. */
export function chosenTools(choice: Choice, tooling: Tooling) {
  const press = tooling.presses.find(({ id }) => id === choice.pressId)
  if (!press) return null
  return {
    support: choice.support,
    supportSpanMm: choice.supportSpanMm,
    press,
    die: tooling.dies.find(({ id }) => id === choice.dieId) ?? null,
    strap: tooling.straps.find(({ id }) => id === choice.strapId) ?? null,
    filler:
      choice.support === 'hollow' ? null : (tooling.fillers.find(({ id }) => id === choice.fillerId) ?? null),
  }
}
