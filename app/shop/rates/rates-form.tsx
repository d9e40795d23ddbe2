'use client'

import type { z } from 'zod'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import type { ShopUnits } from '@/lib/records/fields'
import { rateGroups, type TypedTree } from '@/lib/records/rates/rules'
import { ratesForm } from '@/lib/records/rates/schema'
import { changeRatesAction } from '../actions'
import { RateRow } from './rate-row'

type Typed = z.input<ReturnType<typeof ratesForm>>

export function RatesForm({
  baseId,
  units,
  mayChange,
  start,
  standard,
}: {
  baseId: number
  units: ShopUnits
  mayChange: boolean
  start: TypedTree
  /** What a new shop starts with, for comparison. */
  standard: TypedTree
}) {
  const { field, submit, status, saving } = useRecordForm<Typed, { id: number }>({
    schema: ratesForm(units),
    start: { baseId, reasonText: '', rates: start },
    action: changeRatesAction,
  })
  return (
    <form method="post" onSubmit={submit} noValidate>
      <fieldset disabled={!mayChange} className="stack stack-loose">
        {rateGroups.map(({ title, lines }) => (
          <Section key={title} title={title}>
            <div className="rate-rows">
              {lines.map((line, index) => (
                <RateRow
                  key={line.path.join('.')}
                  line={line}
                  units={units}
                  standard={standard}
                  field={field}
                  hasMeaning={lines[index - 1]?.meaning !== line.meaning}
                />
              ))}
            </div>
          </Section>
        ))}
        <div className="rate-foot">
          {mayChange ? (
            <>
              <TextField label="Why do they change?" maxLength={300} {...field('reasonText')} />
              <div className="form-foot">
                <Button type="submit" kind="primary" pending={saving}>
                  Put these rates in force
                </Button>
                <FormStatus status={status} />
              </div>
            </>
          ) : (
            <p className="muted">Only the owner changes these.</p>
          )}
        </div>
      </fieldset>
    </form>
  )
}
