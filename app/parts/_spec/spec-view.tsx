'use client'

import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import { readSentence } from '@/lib/core/sentence'
import type { LengthUnit } from '@/lib/core/units'
import { BendDetails } from './bend-details'
import { BendTable } from './bend-table'
import { type Asked, faultPlace } from './spec-question'
import { Warnings, WholePart } from './whole-part'

/** The bend spec of the set-up as it stands, or what the model can't do and what would make it possible. */
export function SpecView({
  asked,
  unit,
  selectedBend,
  onSelectBend,
}: {
  asked: Asked
  unit: LengthUnit
  selectedBend: number
  onSelectBend: (bend: number) => void
}) {
  if (asked.state === 'unready') {
    return (
      <Section title="Bend spec" id="spec">
        <p className="muted">The spec stands here as soon as the set-up is whole.</p>
      </Section>
    )
  }
  if (asked.state === 'refused') {
    return (
      <Section title="Bend spec" id="spec">
        <div className="stack stack-tight">
          {asked.faults.map(({ path, met, allowed }) => {
            const { words, bend } = faultPlace(path)
            return (
              <Notice key={path} kind="stop" title={`${words}: ${readSentence(met, unit)}`}>
                <div data-bend={bend ?? undefined}>It would take {readSentence(allowed, unit)}.</div>
              </Notice>
            )
          })}
        </div>
      </Section>
    )
  }
  const { answer, trace, learnedText } = asked
  const told = { input: asked.input, answer, trace, unit }
  const index = Math.min(selectedBend, answer.bends.length - 1)
  const bend = answer.bends[index]
  return (
    <>
      <Section title="Bend spec" id="spec">
        <div className="stack">
          <p className="muted small">
            Press a number to see where it comes from.
            {learnedText === null ? '' : ` Springback as finished bends taught: ${learnedText}.`}
          </p>
          <Warnings warnings={answer.warnings} unit={unit} />
          <BendTable asked={told} selectedBend={index} onSelectBend={onSelectBend} />
          {bend && <BendDetails {...told} bend={bend} index={index} factorSd={asked.factorSd} />}
        </div>
      </Section>
      <WholePart {...told} />
    </>
  )
}
