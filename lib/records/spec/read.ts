import 'server-only'
import type { SpecInput } from '@/lib/core/spec/contract'
import { methodText } from '@/lib/records/lesson/rules'
import { type Revision, readLearnedFactors, readOwnMaterial } from '@/lib/records/part/read'
import { specInputOf } from '@/lib/records/part/rules'
import { readSetup } from '@/lib/records/setup/read'
import { readShop } from '@/lib/records/shop/read'

/** The bend spec's question for a revision on the set-up kept for it; null while none is kept. */
export async function readSpecInput(revision: Revision): Promise<SpecInput | null> {
  const [shop, setup, material, learned] = await Promise.all([
    readShop(),
    readSetup(revision.id),
    readOwnMaterial(revision.materialId),
    readLearnedFactors(revision),
  ])
  if (!setup || revision.bends.length === 0) return null
  const factor = learned[methodText({ support: setup.support, strap: setup.strap !== null })]?.factor
  return specInputOf(revision, setup, shop, {
    ...(material && { material }),
    ...(factor !== undefined && { springbackFactor: factor }),
  })
}
