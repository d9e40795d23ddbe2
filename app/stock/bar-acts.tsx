'use client'

import { useRouter } from 'next/navigation'
import { useWatch } from 'react-hook-form'
import { LengthField } from '@/app/_shop/length-field'
import { PressAction } from '@/app/_shop/press-action'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button, LinkButton } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import type { ShopUnits } from '@/lib/records/fields'
import { adjustForm, cutForm, scrapForm } from '@/lib/records/stock/schema'
import { adjustStockAction, cutStockAction, restoreStockAction, scrapStockAction } from './actions'

export type ActedBar = {
  id: number
  version: number
  /** As the shop writes it, with its unit. */
  lengthText: string
  place: string
  reserved: boolean
}

type Inside = { bar: ActedBar; units: ShopUnits; close: () => void }

/** A bar taken off the rack by mistake. */
export function PutBack({ bar }: { bar: { id: number; version: number; lengthText: string } }) {
  const { id, version, lengthText } = bar
  return (
    <PressAction
      label="Put back"
      name={`bar ${id} of ${lengthText}`}
      input={{ id, version }}
      action={restoreStockAction}
    />
  )
}

/** What can be done with one bar on the rack, one act beside the other. */
export function BarActs({ bar, units, lotHref }: { bar: ActedBar; units: ShopUnits; lotHref: string }) {
  const router = useRouter()
  const inside = { bar, units, close: () => router.push(lotHref, { scroll: false }) }
  return (
    <div className="stack stack-loose">
      <div className="bar-acts">
        <CutForm {...inside} />
        <AdjustForm {...inside} />
        {!bar.reserved && <ScrapForm {...inside} />}
      </div>
      <div className="row">
        <LinkButton href={lotHref} scroll={false}>
          Done with this bar
        </LinkButton>
      </div>
    </div>
  )
}

function CutForm({ bar, units, close }: Inside) {
  const { form, field, submit, status, saving } = useRecordForm({
    schema: cutForm(units),
    start: { id: bar.id, version: bar.version, leftMm: '', place: bar.place, noteText: '' },
    action: cutStockAction,
    onSaved: close,
  })
  const left = useWatch({ control: form.control, name: 'leftMm' })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <h3>Cut into it</h3>
      <p className="muted">
        The bar comes off the rack. What is left goes back as an offcut of the same lot and heat.
      </p>
      <div className="fields">
        <LengthField
          label="Length left"
          hint="Left empty: nothing worth keeping"
          lengthUnit={units.lengthUnit}
          typed={left ?? ''}
          {...field('leftMm')}
        />
        <TextField label="Place of the offcut" maxLength={80} {...field('place')} />
        <TextField label="Note" maxLength={200} wide {...field('noteText')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Note the cut
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

function AdjustForm({ bar, units, close }: Inside) {
  const { form, field, submit, status, saving } = useRecordForm({
    schema: adjustForm(units),
    start: { id: bar.id, version: bar.version, lengthMm: bar.lengthText, place: bar.place, noteText: '' },
    action: adjustStockAction,
    onSaved: close,
  })
  const length = useWatch({ control: form.control, name: 'lengthMm' })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <h3>Measure or move it</h3>
      <div className="fields">
        <LengthField
          label="Length as measured"
          lengthUnit={units.lengthUnit}
          typed={length ?? ''}
          {...field('lengthMm')}
        />
        <TextField label="Place" maxLength={80} {...field('place')} />
        <TextField label="Why" maxLength={200} wide {...field('noteText')} />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Save the bar
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

function ScrapForm({ bar, close }: Inside) {
  const { field, submit, status, saving } = useRecordForm({
    schema: scrapForm,
    start: { id: bar.id, version: bar.version, noteText: '' },
    action: scrapStockAction,
    onSaved: close,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <h3>Scrap it</h3>
      <TextField label="What is wrong with it" maxLength={200} {...field('noteText')} />
      <div className="form-foot">
        <Button type="submit" kind="stop" pending={saving}>
          Scrap it
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
