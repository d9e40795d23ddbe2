import type { ShownFiller } from '@/lib/records/filler-alloy/read'

/** What a pot may hold, with the values that count where the pot's own are left empty. */
export type FillerChoice = {
  id: string
  name: string
  isOwn: boolean
  densityKgM3: number
  yieldMPa: number
  elasticModulusMPa: number
}

export const fillerChoices = (table: readonly ShownFiller[]): FillerChoice[] =>
  table.map(({ filler: { id, name, densityKgM3, yieldMPa, elasticModulusMPa }, entry }) => ({
    id,
    name,
    isOwn: entry !== null,
    densityKgM3,
    yieldMPa,
    elasticModulusMPa,
  }))
