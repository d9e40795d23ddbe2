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

/** What the shop has to bend with. */
export interface ShopTools {
  readonly presses: readonly ShopPress[]
  readonly dies: readonly ShopDie[]
  readonly straps: readonly ShopStrap[]
  /** Of the filler table. */
  readonly lowMeltIds: readonly string[]
  /** What the shop measured of its pot of an alloy, over the table's values. */
  readonly potValues?: Readonly<
    Record<string, Pick<SpecMethod, 'fillerYieldMPa' | 'fillerModulusMPa' | 'fillerDensityKgM3'>>
  >
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
    ...tools.lowMeltIds.map(
      (fillerId) => [{ support: 'lowMelt' as const, fillerId, ...tools.potValues?.[fillerId] }, 2] as const,
    ),
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
