import type { Metadata } from 'next'
import Link from 'next/link'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { outsideChecks } from '@/lib/core/spec/checks-list'
import { modelVersion } from '@/lib/core/spec/contract'
import { requireActor } from '@/lib/server/session'
import { BendingParts } from './bending-parts'
import './numbers.css'
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
  ['shop', 'Judging and cutting'],
] as const

export default async function NumbersPage() {
  await requireActor('part.read')
  const shaky = outsideChecks.filter(({ kind }) => kind === 'memory' || kind === 'practice').length
  return (
    <>
      <PageHead title="How the numbers are made">
        Model version {modelVersion}. {outsideChecks.length} checks from outside are listed here; {shaky} of
        them rest on memory or practice and say so.
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
        <p className="muted">
          Each check stands in the test suite, which fails when a number leaves its source; the list is held
          to the tests that name them.
        </p>
      </div>
    </>
  )
}
