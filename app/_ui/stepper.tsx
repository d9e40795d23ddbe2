'use client'

import { type ReactNode, useId, useState } from 'react'
import { Button } from './button'
import { FieldError } from './field'
import { Keypad } from './keypad'
import { Mark } from './marks'
import { stepText } from './step-text'

/** A number for a gloved hand: big minus and plus, a value to type over, a pad of figures to press. */
export function Stepper({
  name,
  label,
  unit,
  step,
  decimals = 1,
  defaultValue = '',
  startAt,
  hint,
  error,
  keypad = true,
  onChange,
}: {
  name: string
  label: string
  unit: string
  /** What one press of plus or minus adds. */
  step: number
  decimals?: number
  defaultValue?: string
  /** Where an empty value starts from at the first press: what is expected. */
  startAt?: number
  hint?: ReactNode
  error?: string | readonly string[]
  keypad?: boolean
  onChange?: (typed: string) => void
}) {
  const id = useId()
  const [typed, setTyped] = useState(defaultValue)
  const change = (next: string) => {
    setTyped(next)
    onChange?.(next)
  }
  const press = (direction: 1 | -1) =>
    change(stepText(typed, { byStep: direction * step, startAt: startAt ?? 0, decimals }))
  const told = [hint ? `${id}-hint` : '', error ? `${id}-error` : ''].filter(Boolean).join(' ')
  return (
    <div className="stepper">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <div className="stepper-line">
        <Button onClick={() => press(-1)} aria-label={`${label}: ${step} ${unit} less`}>
          <Mark name="minus" />
        </Button>
        <div className="stepper-value">
          <input
            className="field-input"
            id={id}
            name={name}
            value={typed}
            onChange={(event) => change(event.target.value)}
            inputMode="decimal"
            autoComplete="off"
            enterKeyHint="next"
            aria-describedby={told || undefined}
            aria-invalid={error ? true : undefined}
          />
          <span className="field-unit" aria-hidden="true">
            {unit}
          </span>
        </div>
        <Button onClick={() => press(1)} aria-label={`${label}: ${step} ${unit} more`}>
          <Mark name="plus" />
        </Button>
      </div>
      {hint && (
        <div className="field-hint" id={`${id}-hint`}>
          {hint}
        </div>
      )}
      <FieldError id={id} error={error} />
      {keypad && (
        <details>
          <summary className="check small">Number pad</summary>
          <Keypad label={`${label}, ${unit}`} typed={typed} onChange={change} />
        </details>
      )}
    </div>
  )
}
