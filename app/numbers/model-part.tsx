import type { ReactNode } from 'react'
import { Section } from '@/app/_ui/section'
import type { CheckedPart } from '@/lib/core/spec/outside-check'
import { CheckedAgainst } from './checked-against'
import { resultsOf } from './results'

const trustWords = {
  exact: 'Exact: geometry, statics, arithmetic.',
  mechanics: 'Mechanics: textbook beam plasticity, about ten percent with certificate values.',
  screening: 'Screening: says which way a thing goes and roughly how far; a trial piece decides.',
  measured: 'Measured: as good as the readings behind it, and it says how many there are.',
  table: 'Tables: as good as their source, which stands beside each value.',
} as const

/** One part of the model: what it says, how far it is trusted, what it was checked against, what it does not know. */
export function ModelPart({
  id,
  title,
  trust,
  checks,
  unknown,
  children,
}: {
  id: string
  title: string
  trust: keyof typeof trustWords
  checks: readonly CheckedPart[]
  unknown: readonly string[]
  children: ReactNode
}) {
  return (
    <Section id={id} title={title}>
      <div className="stack">
        <div className="prose">
          <p className="strong">{trustWords[trust]}</p>
          {children}
        </div>
        <CheckedAgainst title={title} results={resultsOf(checks)} />
        {unknown.length > 0 && (
          <div className="prose">
            <h3>What it does not know</h3>
            <ul>
              {unknown.map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ul>
          </div>
        )}
      </div>
    </Section>
  )
}
