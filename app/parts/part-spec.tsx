import { PressDrawing } from '@/app/_drawing/press-drawing'
import { SectionDrawing } from '@/app/_drawing/section-drawing'
import { AskNumber } from '@/app/_ui/ask-number'
import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import { isVerdictWord, Verdict } from '@/app/_ui/verdict'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import { type SpecAnswer, type SpecInput, SpecRefusal } from '@/lib/core/spec/contract'
import type { LengthUnit } from '@/lib/core/units'
import { defaultInWords, type SpecNumber, specChain } from './_spec/spec-chains'

export type Answered = { answer: SpecAnswer } | { faults: SpecRefusal['faults'] }

export function answerOf(input: SpecInput): Answered {
  try {
    return { answer: bendSpec(input) }
  } catch (cause) {
    if (cause instanceof SpecRefusal) return { faults: cause.faults }
    throw cause
  }
}

const shownNumbers: readonly (readonly [SpecNumber, string])[] = [
  ['loadedAngle', 'Load to'],
  ['angleAtPress', 'Read at the press'],
  ['finalAngle', 'After melt-out'],
  ['springback', 'Springback'],
]

/** What the core says of a part on its set-up: each bend with its numbers, verdicts and drawings. */
export function PartSpec({
  input,
  answered,
  unit,
}: {
  input: SpecInput
  answered: Answered
  unit: LengthUnit
}) {
  if ('faults' in answered) {
    return (
      <Notice kind="stop" title="This set-up can’t make the part">
        <ul>
          {answered.faults.map((fault) => (
            <li key={fault.path}>
              {fault.met}. What would work: {fault.allowed}.
            </li>
          ))}
        </ul>
      </Notice>
    )
  }
  const { answer } = answered
  return (
    <>
      {answer.warnings.map((warning) => (
        <Notice key={warning} kind="caution" title="Look at this">
          {warning}
        </Notice>
      ))}
      {answer.bends.map((bend, index) => {
        const asked = { input, answer, bend, index, unit }
        return (
          // Bends have no other name than their place.
          <Section
            key={`${index}-${bend.wantedAngleDeg}`}
            title={`Bend ${index + 1}: ${bend.wantedAngleDeg}°`}
            id={`bend-${index + 1}`}
          >
            <dl className="facts">
              {shownNumbers.map(([number, label]) => [
                <dt key={`${number}-name`}>{label}</dt>,
                <dd key={number}>
                  <AskNumber chain={specChain(number, asked)} />
                </dd>,
              ])}
              <dt>Die surface radius</dt>
              <dd>
                <AskNumber chain={specChain('dieRadius', asked)} />
              </dd>
              <dt>Press force, ram travel</dt>
              <dd>
                <AskNumber chain={specChain('pressForce', asked)} />{' '}
                <AskNumber chain={specChain('ramTravel', asked)} />
              </dd>
            </dl>
            <ul className="ruled-list">
              {bend.verdicts.map((verdict) => (
                <li key={verdict.check}>
                  <Verdict word={isVerdictWord(verdict.verdict) ? verdict.verdict : 'ok'}>
                    {verdict.text}
                  </Verdict>
                </li>
              ))}
            </ul>
            <div className="split split-even">
              <SectionDrawing
                tube={input.tube}
                units={unit}
                after={{
                  widthOutsideMm: bend.widthOutsideMm,
                  widthInsideMm: bend.widthInsideMm,
                  sagMm: bend.flangeSagMm,
                  wallOutsideMm: bend.wallOutsideMm.expected,
                  wallInsideMm: bend.wallInsideMm.expected,
                }}
              />
              <PressDrawing
                setUp={{
                  heightMm: input.tube.heightMm,
                  spanMm: input.press.supportSpanMm,
                  noseRadiusMm: input.press.supportNoseRadiusMm,
                  dieSurfaceRadiusMm: bend.dieSurfaceRadiusMm,
                  wrappedAngleDeg: bend.wrappedAngleDeg,
                  strapThicknessMm: input.method.strap?.thicknessMm,
                }}
                filler={input.method.support}
                travelMm={bend.ramTravelMm}
                units={unit}
              />
            </div>
          </Section>
        )
      })}
      <Section title="Temper by way">
        <ul className="ruled-list">
          {answer.temper.map((way) => (
            <li key={way.way}>
              <strong>{way.title}</strong>: ends in {way.endTemper}, yield {way.yieldMPa} MPa, tensile{' '}
              {way.tensileMPa} MPa
              {way.exposureUsed > 0 &&
                `, uses ${(way.exposureUsed * 100).toFixed(1)} % of the heat it can stand`}
              . {way.notes.join(' ')}
            </li>
          ))}
        </ul>
      </Section>
      {answer.defaultsUsed.length > 0 && (
        <Section title="Taken as usual">
          <p className="muted">{answer.defaultsUsed.map(defaultInWords).join('; ')}</p>
        </Section>
      )}
    </>
  )
}
