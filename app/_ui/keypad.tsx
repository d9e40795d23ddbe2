'use client'

import { Button } from './button'

const figures = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0'] as const

/** Figures big enough for a glove, for where the phone's own keyboard is too small. */
export function Keypad({
  label,
  typed,
  onChange,
}: {
  label: string
  typed: string
  onChange: (typed: string) => void
}) {
  return (
    <div className="keypad" role="group" aria-label={label}>
      {figures.map((figure) => (
        <Button
          key={figure}
          onClick={() => {
            if (figure !== '.' || !typed.includes('.')) onChange(typed + figure)
          }}
        >
          {figure}
        </Button>
      ))}
      <Button onClick={() => onChange(typed.slice(0, -1))} aria-label="Rub out the last figure">
        Rub out
      </Button>
    </div>
  )
}
