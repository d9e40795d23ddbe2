'use client'

import { useId } from 'react'
import type { Path, UseFormRegisterReturn } from 'react-hook-form'
import type { z } from 'zod'
import { FieldError } from '@/app/_ui/field'
import type { ShopUnits } from '@/lib/records/fields'
import { type RateLine, rateUnit, type TypedTree, withRateUnit } from '@/lib/records/rates/rules'
import type { ratesForm } from '@/lib/records/rates/schema'

type RatePath = Path<z.input<ReturnType<typeof ratesForm>>>
type FieldOf = (name: RatePath) => UseFormRegisterReturn & { error: string | undefined }

const points = [
  { key: 'low', label: 'hardly less' },
  { key: 'likely', label: 'likely' },
  { key: 'high', label: 'hardly more' },
] as const

function at(tree: TypedTree, path: readonly string[]): string {
  const end = path.reduce<TypedTree | string | undefined>(
    (node, key) => (typeof node === 'object' ? node[key] : node),
    tree,
  )
  return typeof end === 'string' ? end : ''
}

/** One rate: what it is, its number or three, and what it means and started from. */
export function RateRow({
  line,
  units,
  standard,
  field,
  hasMeaning,
}: {
  line: RateLine
  units: ShopUnits
  standard: TypedTree
  field: FieldOf
  /** False where the line above said the same. */
  hasMeaning: boolean
}) {
  const id = useId()
  const unit = rateUnit(line.kind, units)
  const ends = line.isThreePoint ? points : [{ key: null, label: '' }]
  const started = ends
    .map(({ key }) => at(standard, key ? [...line.path, key] : line.path))
    .map((text) => (line.kind.is === 'choice' ? choiceLabel(line.kind.choices, text) : text))
    .join(' / ')
  return (
    <fieldset className="rate-row" aria-describedby={`${id}-note`}>
      <legend className="rate-name">{line.label}</legend>
      <div className="rate-ends">
        {ends.map(({ key, label }) => {
          const name = ['rates', ...line.path, ...(key ? [key] : [])].join('.') as RatePath
          const { error, ...control } = field(name)
          const endId = `${id}-${key ?? 'only'}`
          const common = {
            id: endId,
            className: 'field-input',
            'aria-label': [line.label, label, unit].filter(Boolean).join(', '),
            'aria-invalid': error ? true : undefined,
            'aria-describedby': error ? `${endId}-error` : undefined,
          } as const
          return (
            <div key={endId} className="rate-end">
              {line.kind.is === 'choice' ? (
                <select {...common} {...control}>
                  {line.kind.choices.map((choice) => (
                    <option key={choice.value} value={choice.value}>
                      {choice.label}
                    </option>
                  ))}
                </select>
              ) : (
                <input type="text" inputMode="decimal" autoComplete="off" {...common} {...control} />
              )}
              {label && <span className="rate-end-label">{label}</span>}
              <FieldError id={endId} error={error} />
            </div>
          )
        })}
        {unit && <span className="rate-unit">{unit}</span>}
      </div>
      <p className="rate-note" id={`${id}-note`}>
        {hasMeaning && line.meaning !== line.label && `${line.meaning}. `}Started at{' '}
        {withRateUnit(started, line.kind, units)}: {line.source}.
      </p>
    </fieldset>
  )
}

function choiceLabel(choices: readonly { value: string; label: string }[], value: string): string {
  return choices.find((choice) => choice.value === value)?.label ?? value
}
