import { fillerById } from '@/lib/core/materials/fillers'
import type { Filler } from '@/lib/core/materials/low-melt'
import { ownLowMelt } from '@/lib/core/materials/own-filler'
import type { SpecBend, SpecMaterial, SpecMethod, SpecTube } from '@/lib/core/spec/contract'

export interface ShopPress {
  readonly id: string
  readonly capacityKn: number
  readonly spanMinMm: number
  readonly spanMaxMm: number
  readonly noseRadiusMm: number
  readonly supportFrictionCoeff?: number
  readonly strokeMm?: number
  readonly useFraction?: number
}

export interface ShopDie {
  readonly id: string
  readonly surfaceRadiusMm: number
  /** Widest tube the groove takes; absent: any. */
  readonly grooveWidthMm?: number
}

export interface ShopStrap {
  readonly id: string
  readonly thicknessMm: number
  readonly widthMm: number
  readonly yieldMPa: number
  readonly frictionCoeff?: number
}

/** A low-melt alloy as a bend spec takes it: of the table or the shop's own, with what was measured of the pot. */
export type Pour = Pick<
  SpecMethod,
  'fillerId' | 'ownFiller' | 'fillerYieldMPa' | 'fillerModulusMPa' | 'fillerDensityKgM3'
>

/** What a pour's alloy is called: an id of the table or the shop's own; undefined where the usual one is taken. */
export const pouredId = ({ fillerId, ownFiller }: Pour): string | undefined => ownFiller?.id ?? fillerId

/** A pour's alloy itself; undefined where none is named or nobody knows it. */
export const pouredAlloy = ({ fillerId, ownFiller }: Pour): Filler | undefined =>
  ownFiller ? ownLowMelt(ownFiller) : fillerId === undefined ? undefined : fillerById(fillerId)

/** What the shop has to bend with. */
export interface ShopTools {
  readonly presses: readonly ShopPress[]
  readonly dies: readonly ShopDie[]
  readonly straps: readonly ShopStrap[]
  /** The low-melt alloys in the pots, each with what the shop measured of it. */
  readonly lowMelts: readonly Pour[]
  readonly hasSand: boolean
}

/** The part alone, before anything is chosen to bend it with. */
export interface PartToBend {
  readonly tube: SpecTube
  readonly material: SpecMaterial
  readonly bends: readonly SpecBend[]
  readonly straightAfterMm: number
  /** The springback factor that finished bends taught for a way of holding the tube; undefined where none did. */
  readonly springbackFactorOf?: (method: SpecMethod) => number | undefined
  readonly sectionToleranceFraction?: number
}

/** One way to support the tube while it is bent, and how much trouble it is: nothing, sand, alloy, and one more for a strap. */
export interface Method {
  readonly method: SpecMethod
  readonly strapId: string | null
  readonly effort: number
}

/** Every support the tools allow, with and without each strap, least trouble first. */
export function methodsOf(tools: ShopTools): readonly Method[] {
  const supports: readonly (readonly [SpecMethod, number])[] = [
    [{ support: 'hollow' }, 0],
    ...(tools.hasSand ? ([[{ support: 'sand' }, 1]] as const) : []),
    ...tools.lowMelts.map((pour) => [{ support: 'lowMelt' as const, ...pour }, 2] as const),
  ]
  return supports
    .flatMap(([method, effort]): Method[] => [
      { method, strapId: null, effort },
      ...tools.straps.map(({ id, thicknessMm, widthMm, yieldMPa, frictionCoeff }) => ({
        method: {
          ...method,
          strap: { thicknessMm, widthMm, yieldMPa, ...(frictionCoeff !== undefined && { frictionCoeff }) },
        },
        strapId: id,
        effort: effort + 1,
      })),
    ])
    .sort((a, b) => a.effort - b.effort)
}
