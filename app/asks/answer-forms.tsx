'use client'

import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { DateField, NumberField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { chasedForm, declinedForm, noteForm, type OrderedTyped, orderedForm } from '@/lib/records/ask/schema'
import { chaseAskAction, logDeclineAction, logOrderAction, noteAskAction } from './actions'

type Which = { id: number; version: number }

export function DeclinedForm({ start }: { start: Which & { repliedOn: string; declineReason: string } }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: declinedForm,
    start,
    action: logDeclineAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <DateField label="Their no came on" {...field('repliedOn')} />
        <TextField
          label="Their reason"
          maxLength={500}
          list="decline-reasons"
          autoComplete="off"
          wide
          {...field('declineReason')}
        />
        <datalist id="decline-reasons">
          {[
            'radius too tight for our dies',
            'no die for this section',
            'alloy or temper',
            'quantity too small',
            'no capacity before the date',
          ].map((reason) => (
            <option key={reason} value={reason} />
          ))}
        </datalist>
      </div>
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Log their no
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

export function ChaseForm({ start }: { start: Which & { chaseOn: string } }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: chasedForm,
    start,
    action: chaseAskAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <DateField label="Chase again on" {...field('chaseOn')} />
      </div>
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          I chased them
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

export function NoteForm({ start }: { start: Which & { notesText: string } }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: noteForm,
    start,
    action: noteAskAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <TextArea
        label="Also needed, one a line"
        hint="Goes out with the request: name no customer here"
        rows={3}
        maxLength={2000}
        {...field('notesText')}
      />
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Save what is needed
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

/** How an order that followed from this answer went. */
export function OrderForm({ start }: { start: Omit<OrderedTyped, 'id'> & { id: number } }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: orderedForm,
    start,
    action: logOrderAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <DateField label="Ordered on" {...field('orderedOn')} />
        <NumberField label="Pieces ordered" inputMode="numeric" {...field('orderedQuantity')} />
        <DateField label="Promised for" optional {...field('promisedOn')} />
        <DateField label="Delivered on" optional {...field('deliveredOn')} />
        <NumberField label="Pieces turned away" inputMode="numeric" optional {...field('rejectedQuantity')} />
      </div>
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Keep how the order went
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
