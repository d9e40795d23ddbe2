import { Notice } from '@/app/_ui/notice'
import { modelVersion } from '@/lib/core/spec/contract'
import { BendingParts } from './bending-parts'
import { ProofSection } from './proof-section'
import { outsideResults, publishedSourceCount } from './results'
import { ShapeParts } from './shape-parts'

export const modelTitle = 'How the numbers are made'

export const modelIntroduction = `Model version ${modelVersion}. ${outsideResults.length} of its numbers are held to numbers from outside, out of ${publishedSourceCount} published sources and what was worked out by other means.`

export function ModelCaution() {
  return (
    <Notice kind="caution" title="A computed bend is no proof of a part’s strength">
      Trial pieces settle what is marked screening. Local codes and a licensed engineer decide whether a
      structural part may be used.
    </Notice>
  )
}

/** The whole model in plain words: on its page, and in the document beside it that is written from the same. */
export function WholeModel() {
  return (
    <>
      <BendingParts />
      <ShapeParts />
      <ProofSection />
    </>
  )
}
