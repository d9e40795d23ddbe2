import type { Metadata } from 'next'
import Link from 'next/link'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { modelVersion } from '@/lib/core/spec/contract'
import { requireActor } from '@/lib/server/session'
import { BendingParts } from './bending-parts'
import './numbers.css'
import { ProofSection } from './proof-section'
import { outsideResults, publishedSourceCount } from './results'
import { ShapeParts } from './shape-parts'

export const metadata: Metadata = { title: 'How the numbers are made' }

const contents = [
  ['section', 'Section'],
  ['curve', 'Metal'],
  ['moment', 'Moment'],
  ['press', 'Press'],
  ['springback', 'Springback'],
  ['wall', 'Wall'],
  ['flattening', 'Flattening'],
  ['tearing', 'Tearing'],
  ['temper', 'Temper'],
  ['geometry', 'Lengths'],
  ['learning', 'Learning'],
  ['materials', 'Materials'],
  ['cost', 'Cost and time'],
  ['shop', 'Judging and cutting'],
  ['proof', 'How it is tested'],
] as const

export default async function NumbersPage() {
  await requireActor('part.read')
  return (
    <>
      <PageHead title="How the numbers are made">
        Model version {modelVersion}. {outsideResults.length} of its numbers are held to numbers from outside,
        out of {publishedSourceCount} published sources and what was worked out by other means.
      </PageHead>
      <div className="numbers stack stack-loose">
        <Notice kind="caution" title="A computed bend is no proof of a part’s strength">
          Trial pieces settle what is marked screening. Local codes and a licensed engineer decide whether a
          structural part may be used.
        </Notice>
        <nav aria-label="Parts of the model">
          <ul className="numbers-contents">
            {contents.map(([id, label]) => (
              <li key={id}>
                <Link href={`#${id}`}>{label}</Link>
              </li>
            ))}
          </ul>
        </nav>
        <BendingParts />
        <ShapeParts />
        <ProofSection />
      </div>
    </>
  )
}
