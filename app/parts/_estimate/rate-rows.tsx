'use client'

import type { UseFieldArrayReturn } from 'react-hook-form'
import { Button } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { NumberField, SelectField, TextField } from '@/app/_ui/field'
import { rateAt } from '@/lib/core/cost/rate-overrides'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import type { EstimateTyped } from '@/lib/records/estimate/schema'
import { overridableRate, pathOf, rateShown, typedEnds } from '@/lib/records/estimate-rate/rules'
import type { ShopUnits } from '@/lib/records/fields'
import { type RateLine, rateUnit } from '@/lib/records/rates/rules'

type Sets = UseFieldArrayReturn<EstimateTyped, 'rateOverrides'>
type FieldOf = (name: `rateOverrides.${number}.${'low' | 'likely' | 'high' | 'reason'}`) => {
  error: string | undefined
}

/** The rates that count in an estimate, each the shop's of its day; any can be set for this estimate, says so, and is undone with one press. */
export function RateRows({
  lines,
  rates,
  sheetDay,
  units,
  sets,
  field,
  mayChange,
}: {
  lines: readonly RateLine[]
  /** The shop's own. */
  rates: ShopRates
  sheetDay: string
  units: ShopUnits
  sets: Sets
  field: FieldOf
  mayChange: boolean
}) {
  const isSet = (line: RateLine) => sets.fields.some(({ path }) => path === pathOf(line))
  const start = (line: RateLine) =>
    sets.append(
      { path: pathOf(line), ...typedEnds(rateAt(rates, pathOf(line)), line, units), reason: '' },
      { shouldFocus: true, focusName: `rateOverrides.${sets.fields.length}.likely` },
    )
  return (
    <div className="stack">
      {sets.fields.map(({ id, path }, index) => {
        const line = overridableRate(path)
        return line ? (
          <SetRate
            key={id}
            line={line}
            index={index}
            shop={rateShown(rateAt(rates, path), line, units)}
            sheetDay={sheetDay}
            units={units}
            field={field}
            counts={lines.some((one) => pathOf(one) === path)}
            onUndo={() => sets.remove(index)}
          />
        ) : null
      })}
      <details>
        <summary>
          {sets.fields.length === 0
            ? `All ${lines.length} rates that count here, none set otherwise`
            : `The other ${lines.filter((line) => !isSet(line)).length} rates that count here`}
        </summary>
        <DataTable
          caption={`Rates that count in this estimate, the shop’s of ${sheetDay}`}
          captionHidden
          rows={lines.filter((line) => !isSet(line))}
          rowKey={pathOf}
          columns={[
            {
              key: 'label',
              head: 'Rate',
              title: true,
              cell: ({ label }) => label.charAt(0).toUpperCase() + label.slice(1),
            },
            {
              key: 'shop',
              head: `The shop’s, of ${sheetDay}`,
              cell: (line) => rateShown(rateAt(rates, pathOf(line)), line, units),
            },
            {
              key: 'means',
              head: 'What it is',
              cell: (line) => <span className="muted small">{line.meaning}</span>,
            },
            ...(mayChange
              ? [
                  {
                    key: 'change',
                    head: '',
                    cell: (line: RateLine) => (
                      <Button
                        kind="quiet"
                        onClick={() => start(line)}
                        aria-label={`Set ${line.label} for this estimate`}
                      >
                        Change
                      </Button>
                    ),
                  },
                ]
              : []),
          ]}
        />
      </details>
    </div>
  )
}

function SetRate({
  line,
  index,
  shop,
  sheetDay,
  units,
  field,
  counts,
  onUndo,
}: {
  line: RateLine
  index: number
  shop: string
  sheetDay: string
  units: ShopUnits
  field: FieldOf
  /** False where the way now chosen does not use it. */
  counts: boolean
  onUndo: () => void
}) {
  const unit = rateUnit(line.kind, units)
  const labelled = (label: string) => ({ label, unit, inputMode: 'decimal' as const })
  return (
    <fieldset className="operation-set set-rate">
      <legend className="small strong">
        {line.label}: the shop’s of {sheetDay} is {shop}
        {!counts && <span className="muted">, does not count in this way</span>}
      </legend>
      <div className="fields">
        {line.kind.is === 'choice' ? (
          <SelectField
            label="For this estimate"
            choices={line.kind.choices}
            {...field(`rateOverrides.${index}.likely`)}
          />
        ) : (
          <NumberField
            {...labelled(line.isThreePoint ? 'Most likely' : 'For this estimate')}
            {...field(`rateOverrides.${index}.likely`)}
          />
        )}
        {line.isThreePoint && (
          <>
            <NumberField
              {...labelled('Hardly less')}
              hint="Left empty: as likely"
              {...field(`rateOverrides.${index}.low`)}
            />
            <NumberField
              {...labelled('Hardly more')}
              hint="Left empty: as likely"
              {...field(`rateOverrides.${index}.high`)}
            />
          </>
        )}
        <TextField label="Why" wide {...field(`rateOverrides.${index}.reason`)} />
      </div>
      <Button kind="quiet" onClick={onUndo}>
        Undo: back to {shop}
      </Button>
    </fieldset>
  )
}
