'use client'

import { readSentence } from '@/lib/core/sentence'
import './estimate.css'
import { useRouter } from 'next/navigation'
import { useDeferredValue, useMemo, useState } from 'react'
import { useFieldArray, useWatch } from 'react-hook-form'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { NumberField, SelectField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { pieceFactor } from '@/lib/core/cost/learning'
import { formatPercent } from '@/lib/core/format'
import { type EstimateAsk, type EstimateGround, type Pot, ratesOf } from '@/lib/records/estimate/rules'
import { type EstimateTyped, estimateForm } from '@/lib/records/estimate/schema'
import { ratesBehind, type YieldRecord, yieldSource } from '@/lib/records/estimate-rate/rules'
import { springbackSource } from '@/lib/records/lesson/rules'
import { typedNumber } from '@/lib/records/shop/rules'
import { saveEstimateAction } from './actions'
import { AskFields, BarFields, ToolFields } from './decision-fields'
import {
  computedOperations,
  type LiveGround,
  liveQuantities,
  readAsk,
  type TubePlans,
  tubeKey,
} from './live-estimate'
import { MoneyShare } from './money-share'
import { sheetDay } from './number-chains'
import { OperationRows } from './operation-rows'
import { QuantityResults } from './quantity-results'
import { RateRows } from './rate-rows'
import { FillerFacts, TubeFacts } from './tube-facts'
import { useTubePlans } from './use-tube-plans'

export type BoardGround = LiveGround & {
  mark: string
  ratesOn: string
  timeZone: string
  pot: Pot | null
  kerfMm: number
  yieldRecord: YieldRecord | null
  learned: EstimateGround['learned']
  rackNames: Readonly<Record<string, string>>
}

const words = { yes: 'ok', doubtful: 'warn', no: 'refuse' } as const

/** An estimate while it is being made: every number answers while somebody types, and nothing typed is lost. */
export function EstimateBoard({
  ground,
  start,
  startAsk,
  startPlans,
  mayWrite,
}: {
  ground: BoardGround
  start: EstimateTyped
  startAsk: EstimateAsk
  startPlans: TubePlans
  mayWrite: boolean
}) {
  const router = useRouter()
  const { units } = ground
  const { form, field, submit, status, saving } = useRecordForm<
    EstimateTyped,
    { id: number; number: number }
  >({
    schema: estimateForm(units),
    start,
    action: async (typed) => {
      const outcome = await saveEstimateAction({ ...typed, mark: ground.mark })
      // The new rates or rack are fetched; the form keeps what was typed.
      if (!outcome.ok && outcome.code === 'changed-meanwhile') router.refresh()
      return outcome
    },
    onSaved: ({ id }) => router.push(`/estimates/${id}`),
  })
  const overrides = useFieldArray({ control: form.control, name: 'overrides' })
  const bars = useFieldArray({ control: form.control, name: 'buyable' })
  const rateSets = useFieldArray({ control: form.control, name: 'rateOverrides' })
  const watched = JSON.stringify(useDeferredValue(useWatch({ control: form.control })))
  const typed = useMemo(() => JSON.parse(watched) as EstimateTyped, [watched])
  const read = useMemo(() => readAsk(typed, units), [typed, units])
  const [lastWhole, setLastWhole] = useState(startAsk)
  if (read && read !== lastWhole) setLastWhole(read)
  const ask = read ?? lastWhole
  const planned = useTubePlans({ key: tubeKey(startAsk), plans: startPlans }, { key: tubeKey(ask), typed })
  const basis = ground.bases.find(({ way }) => way === ask.way)
  const live = useMemo(
    () => (basis ? liveQuantities(ground, basis, ask, planned.plans) : []),
    [ground, basis, ask, planned.plans],
  )
  const computed = useMemo(() => (basis ? computedOperations(ground, basis, ask) : []), [ground, basis, ask])
  const [chosenCount, setChosenCount] = useState<number | null>(null)
  const shown =
    live.find(({ estimate }) => estimate.pieceCount === chosenCount) ?? live[Math.min(1, live.length - 1)]
  const rates = useMemo(() => ratesOf(ground.rates, ask), [ground.rates, ask])
  const day = sheetDay(ground)
  const shopYieldText = typedNumber(Number((ground.rates.firstPassYieldFraction * 100).toPrecision(12)))
  const shopMarginText = typedNumber(ground.rates.marginPpm / 10_000)
  const setBack = (name: 'yieldPct' | 'yieldReason' | 'pricingBy' | 'pricingPct', value: string) =>
    form.setValue(name, value, { shouldDirty: true, shouldValidate: true })
  const isShopMargin = ask.pricing.by === 'margin' && ask.pricing.ppm === ground.rates.marginPpm
  const chainGround = {
    rates,
    rateOverrides: ask.rateOverrides,
    ratesOn: ground.ratesOn,
    currency: units.currency,
    timeZone: ground.timeZone,
    lengthUnit: units.lengthUnit,
  }
  return (
    <form method="post" onSubmit={submit} noValidate className="stack stack-loose">
      <fieldset className="bare-fieldset stack stack-loose" disabled={!mayWrite}>
        <Section title="What is estimated" id="ask">
          <div className="stack">
            <AskFields
              bases={ground.bases}
              field={field}
              shopYield={{
                percentText: shopYieldText,
                source: yieldSource(ground.rates, ground.yieldRecord, day),
                isSet: ask.yieldFraction !== ground.rates.firstPassYieldFraction,
                onUndo: () => {
                  setBack('yieldPct', shopYieldText)
                  setBack('yieldReason', '')
                },
              }}
            />
            {basis && (
              <p>
                <Verdict word={words[basis.word]}>{readSentence(basis.because, units.lengthUnit)}</Verdict>
              </p>
            )}
            {basis && basis.way !== 'mitredWelded' && (
              <p className="muted small">
                {springbackSource(ground.learned, { ...basis, factor: basis.springbackFactor })}
              </p>
            )}
            {!read && (
              <Notice title="A field can’t be read yet">
                The numbers below are of the last whole entry.
              </Notice>
            )}
          </div>
        </Section>
        <Section
          title="What it costs"
          id="cost"
          aside={
            <a href="/shop/rates" className="small">
              Rates of {day}
            </a>
          }
        >
          <div className="stack">
            <QuantityResults quantities={live} currency={units.currency} />
            <div className="fields">
              <SelectField
                label="Price by"
                choices={[
                  { value: 'margin', label: 'margin, a share of the price' },
                  { value: 'markup', label: 'markup, a share on the cost' },
                ]}
                {...field('pricingBy')}
              />
              <NumberField
                label={ask.pricing.by === 'margin' ? 'Margin, of the price' : 'Markup, on the cost'}
                unit="%"
                inputMode="decimal"
                hint={`The shop’s: a margin of ${shopMarginText} %, by the rates of ${day}`}
                {...field('pricingPct')}
              />
              {!isShopMargin && (
                <div className="field">
                  <Button
                    kind="quiet"
                    onClick={() => {
                      setBack('pricingBy', 'margin')
                      setBack('pricingPct', shopMarginText)
                    }}
                  >
                    Undo: back to the shop’s margin
                  </Button>
                </div>
              )}
            </div>
          </div>
        </Section>
        {shown && basis && (
          <>
            <fieldset className="row quantity-choice">
              <legend className="small strong">Shown below</legend>
              {live.map(({ estimate: { pieceCount } }) => (
                <Button
                  key={pieceCount}
                  aria-pressed={pieceCount === shown.estimate.pieceCount}
                  onClick={() => setChosenCount(pieceCount)}
                >
                  {pieceCount} {pieceCount === 1 ? 'piece' : 'pieces'}
                </Button>
              ))}
            </fieldset>
            <Section title="Where the money goes" id="money">
              <MoneyShare estimate={shown.estimate} units={units} />
            </Section>
            <Section title="Operations" id="operations">
              <OperationRows
                estimate={shown.estimate}
                computed={computed}
                ground={chainGround}
                edit={mayWrite ? { overrides, field } : null}
              />
              <LearningNote rates={rates} starts={shown.estimate.starts.likely} />
            </Section>
            <Section title="Tube" id="tube">
              <div className="stack">
                {mayWrite && <BarFields bars={bars} field={field} units={units} />}
                {planned.failed && (
                  <Notice
                    title="The cutting could not be planned"
                    actions={<Button onClick={planned.retry}>Try again</Button>}
                  >
                    The shop’s computer did not answer. Until it does, the tube is counted by the metre.
                  </Notice>
                )}
                <TubeFacts
                  basis={basis}
                  tube={shown.tube}
                  rackNames={ground.rackNames}
                  starts={shown.estimate.starts}
                  kerfMm={ground.kerfMm}
                  units={units}
                />
              </div>
            </Section>
            {basis.filler && (
              <Section title="Filler" id="filler">
                <FillerFacts
                  basis={basis}
                  pot={ground.pot}
                  pieceCount={shown.estimate.pieceCount}
                  starts={shown.estimate.starts}
                  rates={rates}
                  lengthUnit={units.lengthUnit}
                />
              </Section>
            )}
            <Section title="Tools to make" id="tools">
              <ToolFields
                basis={basis}
                form={form}
                field={field}
                typed={typed.tools}
                rates={rates}
                lengthUnit={units.lengthUnit}
              />
            </Section>
            <Section
              title="Rates behind it"
              id="rates"
              aside={
                <a href="/shop/rates" className="small">
                  Rates of {day}
                </a>
              }
            >
              <RateRows
                lines={ratesBehind(basis, shown.estimate.operations)}
                rates={ground.rates}
                sheetDay={day}
                units={units}
                sets={rateSets}
                field={field}
                mayChange={mayWrite}
              />
            </Section>
          </>
        )}
      </fieldset>
      {mayWrite && (
        <div className="form-foot">
          <Button type="submit" kind="primary" pending={saving}>
            Save as the next version
          </Button>
          <FormStatus status={status} />
        </div>
      )}
    </form>
  )
}

/** How hand work gets faster over the run, in one sentence. */
function LearningNote({ rates, starts }: { rates: LiveGround['rates']; starts: number }) {
  const { learning } = rates
  if (learning.rateFraction >= 1 || starts < 2) return null
  const last = pieceFactor(starts, learning)
  return (
    <p className="muted small">
      Times are of the first piece. Hand work takes {formatPercent(learning.rateFraction, { decimals: 0 })} at
      each doubling: the last of {starts} starts {formatPercent(last, { decimals: 0 })} of the first. Saw,
      press and outside work stay as they are.
    </p>
  )
}
