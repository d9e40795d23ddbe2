import { type Alloy, type AlloyField, alloyById } from '@/lib/core/materials/alloys'
import { type Provenance, type SourceStatus, statusWords } from '@/lib/core/materials/provenance'
import type { families, ownStatuses } from '@/lib/records/material/schema'

export const familyWords: Readonly<Record<(typeof families)[number], string>> = {
  aluminium: 'Aluminium',
  steel: 'Steel',
  stainless: 'Stainless steel',
  titanium: 'Titanium',
  copper: 'Copper',
}

/** Each value of an alloy and what it is called, in the order a screen shows them. */
export const alloyFieldWords: readonly (readonly [AlloyField, string])[] = [
  ['yieldMPa', 'Yield, typical'],
  ['tensileMPa', 'Tensile, typical'],
  ['minimumYieldMPa', 'Yield, least allowed'],
  ['minimumTensileMPa', 'Tensile, least allowed'],
  ['elongationPct', 'Elongation on 50 mm'],
  ['uniformStrain', 'Uniform strain, plastic'],
  ['reductionOfAreaPct', 'Reduction of area'],
  ['elasticModulusMPa', 'Elastic modulus'],
  ['poisson', 'Poisson’s ratio'],
  ['densityKgM3', 'Density'],
]

type OwnValues = {
  id: string
  name: string
  family: Alloy['family']
  temper: string
  form: string
  elasticModulusMPa: number
  poisson: number
  densityKgM3: number
  yieldMPa: number
  tensileMPa: number
  elongationPct: number
  uniformStrain: number | null
  reductionOfAreaPct: number | null
  heatTreatable: boolean
  sourceText: string
  status: (typeof ownStatuses)[number]
}

/** Closer than any printed value: a number that only went through another unit on the way here. */
const sameValue = (one: number, other: number | undefined): boolean =>
  other !== undefined && Math.abs(one - other) <= 1e-4 * Math.abs(other)

/**
 * The shop's own values in the form of the alloy table: each with where it is from and how sure that is. What was left as
 * the table has it keeps the table's source.
 */
export function ownAlloy(values: OwnValues): Alloy {
  const table = alloyById(values.id)
  const { sourceText, status, uniformStrain, reductionOfAreaPct, ...plain } = values
  const provenance: Provenance = { source: sourceText, status }
  const entered: (readonly [AlloyField, number | null])[] = [
    ['elasticModulusMPa', values.elasticModulusMPa],
    ['poisson', values.poisson],
    ['densityKgM3', values.densityKgM3],
    ['yieldMPa', values.yieldMPa],
    ['tensileMPa', values.tensileMPa],
    ['elongationPct', values.elongationPct],
    ['uniformStrain', uniformStrain],
    ['reductionOfAreaPct', reductionOfAreaPct],
  ]
  return {
    ...plain,
    name: values.name || table?.name || values.id,
    ...(uniformStrain !== null && { uniformStrain }),
    ...(reductionOfAreaPct !== null && { reductionOfAreaPct }),
    tubeTolerance: table?.tubeTolerance ?? 'assumed-10-percent',
    notes: ['The shop’s own values.'],
    sources: Object.fromEntries(
      entered.flatMap(([field, value]) => {
        if (value === null) return []
        const tableSource = sameValue(value, table?.[field]) ? table?.sources[field] : undefined
        return [[field, tableSource ?? provenance]]
      }),
    ),
  }
}

/** How the values of one material were come by, most of them first: '5 quoted second hand, 3 from memory, not checked'. */
export function statusSummary(sources: Readonly<Partial<Record<string, Provenance>>>): string {
  const counts = new Map<SourceStatus, number>()
  for (const provenance of Object.values(sources)) {
    if (provenance) counts.set(provenance.status, (counts.get(provenance.status) ?? 0) + 1)
  }
  return [...counts]
    .sort(([, one], [, other]) => other - one)
    .map(([status, count]) => `${count} ${statusWords[status]}`)
    .join('; ')
}

/** Whether every word of a search is somewhere in a material's own words. */
export function materialFits(
  material: { id: string; name: string; words?: string },
  search: string,
): boolean {
  const text = `${material.id} ${material.name} ${material.words ?? ''}`.toLowerCase()
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word))
}
