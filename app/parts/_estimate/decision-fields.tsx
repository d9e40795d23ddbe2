'use client'

import type { UseFieldArrayReturn, UseFormReturn } from 'react-hook-form'
import { Button } from '@/app/_ui/button'
import { CheckField, NumberField, SelectField, TextField } from '@/app/_ui/field'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import type { LengthUnit } from '@/lib/core/units'
import type { WayBasis } from '@/lib/core/ways/way-basis'
import { toolWords } from '@/lib/records/estimate/rules'
import type { EstimateTyped } from '@/lib/records/estimate/schema'

type Field = (name: FieldName) => { error: string | undefined }
type FieldName =
  | keyof EstimateTyped
  | `buyable.${number}.${'lengthMm' | 'priceCents'}`
  | `tools.${number}.${'charge' | 'overJobs'}`

const wordOf = { yes: 'can be done', doubtful: 'doubtful', no: 'no, says the model' } as const

/** Where the yield comes from, and the way back to it where another one is typed. */
export type ShopYield = { percentText: string; source: string; isSet: boolean; onUndo: () => void }

/** Which way, how many, and what the drawing does not say. */
export function AskFields({
  bases,
  field,
  shopYield,
}: {
  bases: readonly WayBasis[]
  field: Field
  shopYield: ShopYield
}) {
  return (
    <div className="fields">
      <SelectField
        label="Way of making it"
        choices={bases.map(({ way, name, word, part }) => ({
          value: way,
          label: `${name}: ${wordOf[word]}`,
          disabled: part === null,
        }))}
        {...field('way')}
      />
      <NumberField
        label="Quantities"
        hint="Good pieces wanted, such as 1, 6, 20"
        inputMode="text"
        {...field('quantities')}
      />
      <NumberField
        label="Good the first time"
        unit="%"
        inputMode="decimal"
        hint={
          shopYield.isSet ? `The shop’s: ${shopYield.percentText} %` : `Of all started: ${shopYield.source}`
        }
        {...field('yieldPct')}
      />
      {shopYield.isSet && (
        <div className="stack stack-tight">
          <TextField
            label={`Why not ${shopYield.percentText} %`}
            hint={shopYield.source}
            {...field('yieldReason')}
          />
          <div className="row">
            <Button kind="quiet" onClick={shopYield.onUndo}>
              Undo: back to {shopYield.percentText} %
            </Button>
          </div>
        </div>
      )}
      <NumberField label="Holes to drill" inputMode="numeric" {...field('holeCount')} />
      <NumberField
        label="Ends to weld here"
        inputMode="numeric"
        hint="0 where the customer welds"
        {...field('weldedEndCount')}
      />
      <CheckField label="Dye penetrant on every bend" {...field('dyePenetrant')} />
    </div>
  )
}

/** Bars that can be bought, each at the price of the bar. */
export function BarFields({
  bars,
  field,
  units,
}: {
  bars: UseFieldArrayReturn<EstimateTyped, 'buyable'>
  field: Field
  units: { lengthUnit: LengthUnit; currency: string }
}) {
  return (
    <div className="stack stack-tight">
      {bars.fields.map(({ id }, index) => (
        <div key={id} className="fields">
          <NumberField
            label={`Bar to buy ${index + 1}`}
            unit={units.lengthUnit}
            hint={index === 0 ? "Feet too: 20'" : undefined}
            {...field(`buyable.${index}.lengthMm`)}
          />
          <NumberField
            label={`Price of bar ${index + 1}`}
            unit={units.currency}
            inputMode="decimal"
            {...field(`buyable.${index}.priceCents`)}
          />
          <div className="field field-press">
            <Button kind="quiet" onClick={() => bars.remove(index)} aria-label={`Take off bar ${index + 1}`}>
              Take off
            </Button>
          </div>
        </div>
      ))}
      {bars.fields.length < 4 && (
        <div className="row">
          <Button onClick={() => bars.append({ lengthMm: '', priceCents: '' })}>
            {bars.fields.length === 0 ? 'Add a bar that can be bought' : 'Another length'}
          </Button>
        </div>
      )}
    </div>
  )
}

/** Dies and straps this way needs and the rack has not: made for this job, shared, or left out. */
export function ToolFields({
  basis,
  form,
  field,
  typed,
  rates,
  lengthUnit,
}: {
  basis: WayBasis
  form: UseFormReturn<EstimateTyped>
  field: Field
  typed: EstimateTyped['tools']
  rates: ShopRates
  lengthUnit: LengthUnit
}) {
  if (basis.toolsToMake.length === 0) return <p className="muted">Nothing to make: the rack has it all.</p>
  return (
    <ul className="ruled-list">
      {basis.toolsToMake.map((tool) => {
        const index = typed.findIndex(({ key }) => key === tool.key)
        const minutes = tool.kind === 'die' ? rates.dieMakeMinutes : rates.strapMakeMinutes
        const words = toolWords(tool, lengthUnit)
        return (
          <li key={tool.key} className="stack stack-tight">
            <span>
              <strong>{words.charAt(0).toUpperCase() + words.slice(1)}</strong>
              <span className="muted small">
                {' '}
                {minutes.low} to {minutes.high} min to make, likely {minutes.likely}
              </span>
            </span>
            {index < 0 ? (
              <div className="row">
                <span className="muted">Charged to this job.</span>
                <Button
                  kind="quiet"
                  onClick={() =>
                    form.setValue('tools', [...typed, { key: tool.key, charge: 'spread', overJobs: '5' }], {
                      shouldDirty: true,
                    })
                  }
                >
                  Share it
                </Button>
              </div>
            ) : (
              <div className="fields">
                <SelectField
                  label="Paid by"
                  choices={[
                    { value: 'job', label: 'this job, all of it' },
                    { value: 'spread', label: 'several jobs, in equal parts' },
                    { value: 'none', label: 'not in this estimate' },
                  ]}
                  {...field(`tools.${index}.charge`)}
                />
                {typed[index]?.charge === 'spread' && (
                  <NumberField
                    label="Over"
                    unit="jobs"
                    inputMode="numeric"
                    {...field(`tools.${index}.overJobs`)}
                  />
                )}
              </div>
            )}
          </li>
        )
      })}
    </ul>
  )
}
