import { LinkButton } from '@/app/_ui/button'
import { Mark } from '@/app/_ui/marks'
import { Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { readSentence } from '@/lib/core/sentence'
import { shopFormat } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import type { WayAnswer } from '@/lib/core/ways/way-answer'
import { springbackSource } from '@/lib/records/lesson/rules'
import { remedyText, wayVerdicts } from './way-words'

/** One way in full: the number that decides, what would make it a yes, what it needs, the steps to its temper. */
export function WayDetails({
  answer,
  learned,
  unit,
  estimateHref,
  asksHref,
}: {
  answer: WayAnswer
  learned: Parameters<typeof springbackSource>[0]
  unit: LengthUnit
  estimateHref: string | null
  asksHref: string | null
}) {
  const text = (words: string) => readSentence(words, unit)
  return (
    <Section
      title={answer.name}
      id={`way-${answer.way}`}
      aside={
        answer.way === 'outside'
          ? asksHref && (
              <LinkButton kind="quiet" href={asksHref}>
                Ask for prices
              </LinkButton>
            )
          : estimateHref && (
              <LinkButton kind="quiet" href={estimateHref}>
                Estimate this way
              </LinkButton>
            )
      }
    >
      <div className="stack">
        <p>
          <Verdict {...wayVerdicts[answer.word]}>{text(answer.because)}</Verdict>
        </p>
        {answer.word === 'no' && (
          <div className="stack stack-tight">
            <h3 className="small strong">What would make it a yes</h3>
            {answer.remedies.length > 0 ? (
              <ul>
                {answer.remedies.map((remedy) => (
                  <li key={remedy.change}>{remedyText(remedy, unit)}</li>
                ))}
              </ul>
            ) : (
              <p className="muted">
                No single longer span, larger radius or thicker wall does it: take another way.
              </p>
            )}
          </div>
        )}
        {answer.needs.length > 0 && (
          <div className="stack stack-tight">
            <h3 className="small strong">What it needs</h3>
            <ul className="plain-list">
              {answer.needs.map((need) => (
                <li key={need.text}>
                  <Mark name={need.have ? 'tick' : 'ask'} /> {text(need.text)}
                  <span className="muted"> {need.have ? '(here)' : '(not here yet)'}</span>
                </li>
              ))}
            </ul>
          </div>
        )}
        {answer.word !== 'no' && <p>To expect: {text(answer.tolerance.text)}.</p>}
        {answer.spec && (
          <p className="muted small">
            {springbackSource(learned, { ...answer, factor: answer.spec.input.springbackFactor })}
          </p>
        )}
        {answer.warnings.length > 0 && (
          <ul>
            {answer.warnings.map((warning) => (
              <li key={warning}>{text(warning)}</li>
            ))}
          </ul>
        )}
        {answer.temper && (
          <details>
            <summary>
              Ends in {answer.temper.endTemper}: {shopFormat(unit).stress(answer.temper.yieldMPa)} yield,{' '}
              {shopFormat(unit).stress(answer.temper.tensileMPa)} tensile, in {answer.temper.steps.length}{' '}
              {answer.temper.steps.length === 1 ? 'step' : 'steps'}
            </summary>
            <ol>
              {answer.temper.steps.map((step) => (
                <li key={step}>{text(step)}</li>
              ))}
            </ol>
            <p>{text(answer.temper.springbackNote)}</p>
            {answer.temper.notes.map((note) => (
              <p key={note} className="muted small">
                {text(note)}
              </p>
            ))}
          </details>
        )}
      </div>
    </Section>
  )
}
