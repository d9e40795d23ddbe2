'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { NumberField, SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { completeForm } from '@/lib/records/bend-record/schema'
import type { ShopUnits } from '@/lib/records/fields'
import { benchEntryAction } from '../actions'

const lookChoices = [
  { value: '', label: 'Not looked at yet' },
  { value: 'clean', label: 'Clean' },
  { value: 'marked', label: 'Tool marks' },
  { value: 'wrinkled', label: 'Wrinkled' },
  { value: 'flattened', label: 'Flattened' },
  { value: 'cracked', label: 'Cracked' },
]
const penetrantChoices = [
  { value: 'notDone', label: 'Not done' },
  { value: 'clear', label: 'Clear' },
  { value: 'indication', label: 'Indication' },
]

type Props = {
  scanCode: string
  position: number
  /** The key of the try that waits for its reading; null: a new try. */
  completes: string | null
  aimDeg: number | null
  units: ShopUnits
}

function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}

/** One try's readings. Its key is made once, so that pressing twice keeps one entry. */
export function TryForm({ scanCode, position, completes, aimDeg, units }: Props) {
  const router = useRouter()
  const [clientKey] = useState(newKey)
  const readings = {
    loadedAngleDeg: '',
    angleAtPressDeg: '',
    angleFinalDeg: '',
    radiusMm: '',
    widthOutsideMm: '',
    widthMiddleMm: '',
    widthInsideMm: '',
    heightMm: '',
    wallOutsideMm: '',
    wallInsideMm: '',
    look: '' as const,
    dyePenetrant: 'notDone' as const,
    gaugeText: 'Digital protractor',
    gaugeUncertaintyDeg: '0.2',
    noteText: '',
  }
  const head =
    completes === null
      ? {
          kind: 'try' as const,
          clientKey,
          scanCode,
          bendPosition: position,
          targetAtPressDeg: aimDeg === null ? '' : aimDeg.toFixed(1),
        }
      : { kind: 'complete' as const, clientKey, recordKey: completes }
  const { field, submit, status, saving } = useRecordForm({
    schema: completeForm(units).omit({ kind: true, clientKey: true, recordKey: true }),
    start: readings,
    action: (typed) => benchEntryAction({ ...head, ...typed }),
    onSaved: () => router.refresh(),
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <NumberField label="Angle at the press" unit="°" inputMode="decimal" {...field('angleAtPressDeg')} />
        <NumberField label="Angle after melt-out" unit="°" inputMode="decimal" {...field('angleFinalDeg')} />
        <SelectField label="Look" choices={lookChoices} {...field('look')} />
        <SelectField label="Dye penetrant" choices={penetrantChoices} {...field('dyePenetrant')} />
      </div>
      <details>
        <summary>Widths, walls, radius, gauge, note</summary>
        <div className="fields">
          <NumberField label="Loaded angle" unit="°" inputMode="decimal" {...field('loadedAngleDeg')} />
          <NumberField label="Radius" unit={units.lengthUnit} {...field('radiusMm')} />
          <NumberField label="Width, outer face" unit={units.lengthUnit} {...field('widthOutsideMm')} />
          <NumberField label="Width, middle" unit={units.lengthUnit} {...field('widthMiddleMm')} />
          <NumberField label="Width, inner face" unit={units.lengthUnit} {...field('widthInsideMm')} />
          <NumberField label="Height in the bend plane" unit={units.lengthUnit} {...field('heightMm')} />
          <NumberField label="Wall, outside" unit={units.lengthUnit} {...field('wallOutsideMm')} />
          <NumberField label="Wall, inside" unit={units.lengthUnit} {...field('wallInsideMm')} />
          <TextField label="Gauge" {...field('gaugeText')} />
          <NumberField
            label="Gauge’s uncertainty, ±"
            unit="°"
            inputMode="decimal"
            {...field('gaugeUncertaintyDeg')}
          />
          <TextField label="Note" wide {...field('noteText')} />
        </div>
      </details>
      <div className="form-foot">
        <Button type="submit" kind="primary" big pending={saving}>
          {completes === null ? `Log the try at bend ${position}` : `Complete the try at bend ${position}`}
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
