import { type Alloy, alloyById, alloys } from '@/lib/core/materials/alloys'

/** The alloy's designation without its temper: '6061' of '6061-T6-drawn'. */
export function designation(alloyId: string): string {
  return alloyId.split('-')[0] ?? alloyId
}

/** The same alloy in another temper, where the material table has it. */
export function sameAlloyInTemper(alloyId: string, temper: 'T4' | 'O'): Alloy | null {
  const alloy = alloyById(alloyId)
  if (!alloy) return null
  return (
    alloys.find((other) => other.temper === temper && designation(other.id) === designation(alloy.id)) ?? null
  )
}
