'use client'

import Link from 'next/link'
import { type Path, type UseFormReturn, useFieldArray } from 'react-hook-form'
import { Button } from '@/app/_ui/button'
import { NumberField, TextArea } from '@/app/_ui/field'
import { moneyText } from '@/app/_ui/money'
import { Section } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import type { PriceRounding } from '@/lib/core/cost/money'
import { formatPercent } from '@/lib/core/format'
import { readMoney } from '@/lib/core/typed/money'
import { priceOfCost } from '@/lib/records/estimate/rules'
import type { ShopUnits } from '@/lib/records/fields'
import { breakTotals, earned, soldBelowCost, unfairBreaks } from '@/lib/records/quote/rules'
import type { QuoteTyped } from '@/lib/records/quote/schema'
import { typedRate } from '@/lib/records/rates/rules'
import { EstimateOfLine, PriceBy } from './line-price'

export type LineFacts = {
  id: string
  partHref: string
  partLabel: string
  costs: readonly { quantity: number; costCents: number }[]
  estimate: { href: string; label: string; warning: string } | null
  /** Where an estimate of this part is made. */
  estimateHref: string
}

type Props = {
  index: number
  form: UseFormReturn<QuoteTyped>
  field: (name: Path<QuoteTyped>) => { error: string | undefined }
  facts: LineFacts | undefined
  typed: QuoteTyped['lines'][number] | undefined
  units: ShopUnits
  tax: { name: string; ppm: number }
  rounding: PriceRounding
  onRemove: (() => void) | undefined
}

/** One line of a draft: what, when, and its price list with what each step comes to and earns. */
export function LineFields({ index, form, field, facts, typed, units, tax, rounding, onRemove }: Props) {
  const {
    fields: steps,
    append,
    remove,
  } = useFieldArray({ control: form.control, name: `lines.${index}.breaks` })
  const read = (typed?.breaks ?? []).map(({ quantity, unitPrice }) => {
    const price = readMoney(unitPrice, { currency: units.currency })
    const pieces = /^\d{1,6}$/.test(quantity.trim()) ? Number(quantity) : 0
    const unitCents = price.ok && unitPrice.trim() !== '' ? price.amountCents : 0
    return {
      quantity: pieces,
      unitCents,
      costCents: facts?.costs.find((cost) => cost.quantity === pieces)?.costCents ?? null,
    }
  })
  const costed = (facts?.costs.length ?? 0) > 0
  const unfair = unfairBreaks(read.filter(({ quantity, unitCents }) => quantity > 0 && unitCents > 0))
  return (
    <Section
      title={`Line ${index + 1}`}
      aside={
        <span className="row">
          {facts && <Link href={facts.partHref}>{facts.partLabel}</Link>}
          {onRemove && (
            <Button kind="quiet" onClick={onRemove}>
              Take off
            </Button>
          )}
        </span>
      }
    >
      <div className="fields">
        <TextArea label="What is offered" rows={2} {...field(`lines.${index}.description`)} />
        <NumberField
          label="Lead time"
          unit="calendar days"
          inputMode="numeric"
          hint="From their order; the day the job is due counts from it"
          {...field(`lines.${index}.leadTimeDays`)}
        />
      </div>
      {facts && <EstimateOfLine facts={facts} />}
      <ul className="ruled-list">
        {steps.map((step, place) => {
          const known = read[place]
          return (
            <li key={step.id}>
              <div className="fields">
                <NumberField
                  label="From this quantity"
                  unit="pieces"
                  inputMode="numeric"
                  {...field(`lines.${index}.breaks.${place}.quantity`)}
                />
                <NumberField
                  label="Price each"
                  unit={units.currency}
                  inputMode="decimal"
                  {...field(`lines.${index}.breaks.${place}.unitPrice`)}
                />
                <div className="field">
                  <span className="field-label">Comes to</span>
                  <output>
                    {known ? (
                      <Comes step={known} currency={units.currency} tax={tax} isCosted={costed} />
                    ) : (
                      '–'
                    )}
                  </output>
                </div>
                {steps.length > 1 && (
                  <div className="field">
                    <span className="field-label" aria-hidden="true">
                      {'\u00a0'}
                    </span>
                    <Button
                      kind="quiet"
                      onClick={() => remove(place)}
                      aria-label={`Take off quantity ${place + 1} of line ${index + 1}`}
                    >
                      Take off
                    </Button>
                  </div>
                )}
              </div>
            </li>
          )
        })}
      </ul>
      {costed && (
        <PriceBy
          rounding={rounding}
          onPrice={(pricing) => {
            for (const [place, { costCents }] of read.entries()) {
              if (costCents === null) continue
              const cents = priceOfCost(costCents, pricing, rounding)
              form.setValue(
                `lines.${index}.breaks.${place}.unitPrice`,
                typedRate(cents, { is: 'money', unit: '' }, units),
                { shouldDirty: true, shouldValidate: true },
              )
            }
          }}
        />
      )}
      <div className="row">
        {steps.length < 12 && (
          <Button onClick={() => append({ quantity: '', unitPrice: '' })}>Another quantity</Button>
        )}
        {unfair.length > 0 && <span className="muted">Look at this price list: {unfair.join(' ')}</span>}
      </div>
    </Section>
  )
}

type Step = { quantity: number; unitCents: number; costCents: number | null }

function Comes({
  step,
  currency,
  tax,
  isCosted,
}: {
  step: Step
  currency: string
  tax: Props['tax']
  /** Other quantities of this line have a cost behind them. */
  isCosted: boolean
}) {
  if (step.quantity === 0 || step.unitCents === 0) return <>–</>
  const totals = breakTotals(step, tax.ppm)
  const gained = earned(step)
  return (
    <>
      <span className="nowrap">{moneyText(totals.netCents, currency)}</span>
      {tax.ppm > 0 && (
        <span className="muted small">
          {' '}
          and {moneyText(totals.taxCents, currency)} {tax.name}
        </span>
      )}
      {gained && gained.marginFraction !== null && gained.markupFraction !== null && (
        <span className="muted small">
          {' '}
          – each costs {moneyText(step.costCents ?? 0, currency)}, margin{' '}
          {formatPercent(gained.marginFraction)} of the price, markup {formatPercent(gained.markupFraction)}{' '}
          on cost
        </span>
      )}
      {isCosted && step.costCents === null && (
        <span className="muted small"> – no cost known: the estimate has not this quantity</span>
      )}
      {soldBelowCost(step) && (
        <span>
          {' '}
          <Verdict word="warn" label="below cost">
            {moneyText((step.costCents ?? 0) - step.unitCents, currency)} lost on each
          </Verdict>
        </span>
      )}
    </>
  )
}
