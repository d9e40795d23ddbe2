import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/_ui/page-head'
import { requireActor } from '@/lib/server/session'
import './numbers.css'
import { ModelCaution, modelIntroduction, modelTitle, WholeModel } from './whole-model'

export const metadata: Metadata = { title: modelTitle }

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
      <PageHead title={modelTitle}>{modelIntroduction}</PageHead>
      <div className="numbers stack stack-loose">
        <ModelCaution />
        <nav aria-label="Parts of the model">
          <ul className="numbers-contents">
            {contents.map(([id, label]) => (
              <li key={id}>
                <Link href={`#${id}`}>{label}</Link>
              </li>
            ))}
          </ul>
        </nav>
        <WholeModel />
      </div>
    </>
  )
}
