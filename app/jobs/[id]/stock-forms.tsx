'use client'

import { useWatch } from 'react-hook-form'
import { filled } from '@/app/_shop/filled'
import { LengthField } from '@/app/_shop/length-field'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { FieldError, SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { formatLength } from '@/lib/core/format'
import { cutLeft } from '@/lib/core/stock/cut-left'
import { readLength } from '@/lib/core/typed/length'
import type { ShopUnits } from '@/lib/records/fields'
import { cutPiecesForm, stockChoice } from '@/lib/records/piece/schema'
import { cutPiecesAction, reserveStockAction } from '../actions'

type Bar = { value: string; label: string; lengthMm: number }

export function ReserveForm({ jobId, bars }: { jobId: number; bars: readonly Bar[] }) {
  const { form, submit, status, saving } = useRecordForm({
    schema: stockChoice,
    start: { jobId: String(jobId), stockPieceIds: [] as string[] },
    action: reserveStockAction,
    emptyAfter: true,
  })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <fieldset className="bare-fieldset stack stack-tight">
        <legend className="visually-hidden">Free tubes of this alloy and size</legend>
        {bars.map((bar) => (
          <label key={bar.value} className="check">
            <input type="checkbox" {...filled(form, 'stockPieceIds', bar.value)} />
            <span>{bar.label}</span>
          </label>
        ))}
        <FieldError id="reserve" error={form.formState.errors.stockPieceIds?.message} />
      </fieldset>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Reserve for this job
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

export function CutForm({
  jobId,
  bars,
  pieces,
  cutLengthText,
  kerfMm,
  units,
}: {
  jobId: number
  bars: readonly Bar[]
  pieces: readonly { id: number; number: number }[]
  cutLengthText: string
  kerfMm: number
  units: ShopUnits
}) {
  const { form, field, submit, status, saving } = useRecordForm({
    schema: cutPiecesForm(units),
    start: {
      jobId: String(jobId),
      stockPieceId: bars[0]?.value ?? '',
      pieceIds: [] as string[],
      cutLengthMm: cutLengthText,
      leftMm: '',
      place: '',
    },
    action: cutPiecesAction,
  })
  const [stockPieceId, pieceIds, cutLength, left] = useWatch({
    control: form.control,
    name: ['stockPieceId', 'pieceIds', 'cutLengthMm', 'leftMm'],
  })
  const bar = bars.find(({ value }) => value === String(stockPieceId))
  const read = readLength(cutLength ?? '', { defaultUnit: units.lengthUnit })
  const pieceCount = Array.isArray(pieceIds) ? pieceIds.length : 0
  const show = (mm: number) => formatLength(mm, units.lengthUnit)
  const cut =
    bar && read.ok && read.lengthMm > 0 && pieceCount > 0
      ? cutLeft({ barMm: bar.lengthMm, lengthMm: read.lengthMm, pieceCount, kerfMm })
      : null
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <fieldset className="stack stack-tight">
        <legend className="strong">Which pieces?</legend>
        <div className="piece-checks">
          {pieces.map((piece) => (
            <label key={piece.id} className="check">
              <input type="checkbox" {...filled(form, 'pieceIds', String(piece.id))} />
              <span>Piece {piece.number}</span>
            </label>
          ))}
        </div>
        <FieldError id="cut-pieces" error={form.formState.errors.pieceIds?.message} />
      </fieldset>
      <div className="fields">
        <SelectField label="Cut from" choices={bars} wide {...field('stockPieceId')} />
        <LengthField
          label="Cut length of each"
          lengthUnit={units.lengthUnit}
          typed={cutLength ?? ''}
          {...field('cutLengthMm')}
        />
        <LengthField
          label="Length left"
          hint="Left empty: as reckoned; short ends are not kept"
          lengthUnit={units.lengthUnit}
          typed={left ?? ''}
          {...field('leftMm')}
        />
        <TextField label="Place of the offcut" maxLength={80} {...field('place')} />
      </div>
      <output className="muted">
        {cut === null
          ? 'Choose the pieces: what is left is reckoned here.'
          : cut.fits
            ? `${pieceCount} of ${read.ok ? show(read.lengthMm) : ''} with a kerf of ${show(kerfMm)} each leave ${show(cut.leftMm)}.`
            : `Too short by ${show(cut.lackMm)}.`}
      </output>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Note the cut
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
