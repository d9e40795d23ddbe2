'use client'

import { AskNumber } from '@/app/_ui/ask-number'
import { DataTable } from '@/app/_ui/data-table'
import { Notice } from '@/app/_ui/notice'
import { Facts, Section } from '@/app/_ui/section'
import { formatMass, formatNumber, formatPercent } from '@/lib/core/format'
import type { Trace } from '@/lib/core/mechanics/trace'
import { readSentence } from '@/lib/core/sentence'
import { shopFormat } from '@/lib/core/shop-format'
import type { SpecAnswer, SpecInput } from '@/lib/core/spec/contract'
import { pouredAlloy } from '@/lib/core/spec/shop-tools'
import { fillerRefused } from '@/lib/core/spec/spec-temper'
import type { LengthUnit } from '@/lib/core/units'
import { tracedChain } from './spec-chains'
import { defaultInWords, lengthShown, massShown } from './spec-shown'

type Answered = { input: SpecInput; answer: SpecAnswer; trace: () => Trace; unit: LengthUnit }

function CutLength({ answer, trace, unit }: Answered) {
  const of = { name: 'the cut length', shown: lengthShown(answer.cutLengthMm, unit) }
  const chain = () => tracedChain(of, trace().chain('cutLengthMm'), unit, true)
  return <AskNumber of={{ name: of.name, ...of.shown }} chain={chain} />
}

function FillerMass({ answer, trace, unit }: Answered) {
  const { filler } = answer
  if (!filler) return null
  const of = {
    name: 'the mass of filler',
    shown: massShown(filler.massKg, unit),
    note: unit === 'in' ? `That is ${formatMass(filler.massKg, { unit: 'kg' })}. ` : undefined,
  }
  const chain = () => tracedChain(of, trace().chain('filler.massKg'), unit, true)
  return <AskNumber of={{ name: of.name, ...of.shown }} chain={chain} />
}

const capitalised = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)

/** What the answer fills the bore with: where the question names nothing, what the model takes. */
const fillerOf = ({ input, answer }: Pick<Answered, 'input' | 'answer'>) =>
  answer.filler && pouredAlloy({ ...input.method, fillerId: answer.filler.id })

/** A hazard of the table, 'Lead: wash hands', as a caution: what it is, then what to do. */
function Hazards({ input, answer, unit }: Answered) {
  const known = fillerOf({ input, answer })
  const own = (known?.hazards ?? []).map((text) => {
    const [hazard = text, ...act] = readSentence(text, unit).split(': ')
    return { hazard, act: capitalised(act.join(': ')) }
  })
  const standing = [
    {
      hazard: 'The tube can jump out of the press',
      act: 'Stand clear of both ends and of the line of the strap; guard the die.',
    },
    ...(input.method.support === 'hollow'
      ? []
      : [
          {
            hazard: 'A closed tube bursts when heated',
            act: 'Leave one end open, or vent it, before any heat.',
          },
        ]),
  ]
  return (
    <div className="stack stack-tight">
      {[...own, ...standing].map(({ hazard, act }) => (
        <Notice key={hazard} kind="caution" title={hazard}>
          {act}
        </Notice>
      ))}
    </div>
  )
}

/** What to look at before anything else: each warning's fact first, then what follows from it. */
export function Warnings({ warnings, unit }: { warnings: readonly string[]; unit: LengthUnit }) {
  return warnings.map((warning) => {
    const [fact = warning, ...rest] = readSentence(warning, unit).split(': ')
    return (
      <Notice key={warning} kind={fact === fillerRefused ? 'stop' : 'info'} title={fact}>
        {capitalised(rest.join(': '))}
      </Notice>
    )
  })
}

/** Of the whole part: length to cut, filler and its hazards, tempers, and what was taken for granted. */
export function WholePart(answered: Answered) {
  const { answer, unit, input } = answered
  const { filler } = answer
  return (
    <>
      <Section title="To cut and fill">
        <Facts
          facts={[
            ['Cut length', <CutLength key="cut" {...answered} />],
            ['Tube', shopFormat(unit).massPerLength(answer.section.massKgPerM)],
            ...(filler
              ? ([
                  ['Filler', fillerOf({ input, answer })?.name ?? filler.id],
                  ['Mass of filler', <FillerMass key="mass" {...answered} />],
                ] as const)
              : []),
            ...(filler?.liquidusC === undefined
              ? []
              : ([['All liquid above', shopFormat(unit).temperature(filler.liquidusC)]] as const)),
          ]}
        />
        <Hazards {...answered} />
      </Section>
      <Section title="Temper it ends in">
        <DataTable
          caption="The temper each way ends in"
          captionHidden
          rows={answer.temper}
          rowKey={(way) => way.way}
          columns={[
            {
              key: 'way',
              head: 'Way',
              title: true,
              cell: (way) => `${way.title}${way.isChosen ? ' (this set-up)' : ''}`,
            },
            { key: 'temper', head: 'Ends in', cell: (way) => way.endTemper || 'as it was bought' },
            {
              key: 'yield',
              head: 'Yield',
              cell: (way) => shopFormat(unit).stress(way.yieldMPa),
            },
            {
              key: 'tensile',
              head: 'Tensile',
              cell: (way) => shopFormat(unit).stress(way.tensileMPa),
            },
            {
              key: 'heat',
              head: 'Heat allowed, used',
              cell: (way) => (
                <span className={way.exposureUsed > 1 ? 'stop-text' : undefined}>
                  {formatPercent(way.exposureUsed)}
                  {way.exposureUsed > 1 ? ': the strengths do not hold' : ''}
                </span>
              ),
            },
            {
              key: 'steps',
              head: 'Steps',
              cell: (way) => (
                <details className="temper-steps">
                  <summary>{way.steps.length === 1 ? '1 step' : `${way.steps.length} steps`}</summary>
                  <ol>
                    {way.steps.map((step) => (
                      <li key={step}>{readSentence(step, unit)}</li>
                    ))}
                  </ol>
                  {[way.springbackNote, ...way.notes].filter(Boolean).map((note) => (
                    <p key={note} className="small muted">
                      {readSentence(note, unit)}
                    </p>
                  ))}
                </details>
              ),
            },
          ]}
        />
      </Section>
      <p className="muted small">
        Taken for granted: {answer.defaultsUsed.map(defaultInWords).join('; ') || 'nothing'}
        {input.springbackFactor === undefined
          ? ''
          : `; springback factor ${formatNumber(input.springbackFactor, { decimals: 3 })} from finished bends`}
        . Model {answer.modelVersion}. It says what was calculated, not that a part may be used: local codes
        and a licensed engineer decide that.
      </p>
    </>
  )
}
