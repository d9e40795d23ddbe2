'use client'

import type { UseFieldArrayReturn } from 'react-hook-form'
import { AskNumber } from '@/app/_ui/ask-number'
import { Button } from '@/app/_ui/button'
import { NumberField, TextField } from '@/app/_ui/field'
import { Mark } from '@/app/_ui/marks'
import { moneyText } from '@/app/_ui/money'
import type { Estimate } from '@/lib/core/cost/estimate'
import type { Operation, OverridableField } from '@/lib/core/cost/operation'
import { workCentreNames } from '@/lib/core/cost/work-centres'
import { readSentence } from '@/lib/core/sentence'
import type { EstimateTyped } from '@/lib/records/estimate/schema'
import {
  type ChainGround,
  costChain,
  fieldWords,
  minutesChain,
  operationCents,
  pointShown,
} from './number-chains'
import { minutesForField } from './typed-estimate'

const fields = ['setUpMinutes', 'runMinutesPerPiece', 'elapsedMinutes'] as const

type Overrides = UseFieldArrayReturn<EstimateTyped, 'overrides'>
type FieldOf = (name: `overrides.${number}.${'low' | 'likely' | 'high' | 'reason'}`) => {
  error: string | undefined
}

/** The operations in order with their minutes; each can be set by hand, says so, and is undone with one press. */
export function OperationRows({
  estimate,
  computed,
  ground,
  edit,
}: {
  estimate: Estimate
  /** The operations before anybody set a time. */
  computed: readonly Operation[]
  ground: ChainGround
  /** Null: only to be read. */
  edit: { overrides: Overrides; field: FieldOf } | null
}) {
  return (
    <table className="table table-stacked">
      <caption className="visually-hidden">Operations in order</caption>
      <thead>
        <tr>
          <th scope="col">Operation</th>
          <th scope="col">
            Set-up <span className="unit">min</span>
          </th>
          <th scope="col">
            Run, each <span className="unit">min</span>
          </th>
          <th scope="col">
            Waiting <span className="unit">min</span>
          </th>
          <th scope="col">Driven by</th>
          <th scope="col">Cost, {estimate.pieceCount}</th>
          {edit && (
            <th scope="col">
              <span className="visually-hidden">Change</span>
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {estimate.operations.map((operation, index) => (
          <OperationRow
            key={operation.key}
            place={index + 1}
            operation={operation}
            computed={computed.find(({ key }) => key === operation.key) ?? operation}
            estimate={estimate}
            ground={ground}
            edit={edit}
          />
        ))}
      </tbody>
    </table>
  )
}

function OperationRow({
  place,
  operation,
  computed,
  estimate,
  ground,
  edit,
}: {
  place: number
  operation: Operation
  computed: Operation
  estimate: Estimate
  ground: ChainGround
  edit: { overrides: Overrides; field: FieldOf } | null
}) {
  const set = edit?.overrides.fields.flatMap((one, index) =>
    one.operationKey === operation.key ? [{ ...one, index }] : [],
  )
  const start = (field: OverridableField) =>
    edit?.overrides.append(
      {
        operationKey: operation.key,
        field,
        low: '',
        likely: minutesForField(computed[field].likely),
        high: '',
        reason: '',
      },
      { shouldFocus: true, focusName: `overrides.${edit.overrides.fields.length}.likely` },
    )
  const first = computed.runMinutesPerPiece.high > 0 ? 'runMinutesPerPiece' : 'setUpMinutes'
  /** On a phone a time that is not there takes no line. */
  const nothing = (field: OverridableField) => (operation[field].high === 0 ? 'cell-nothing' : undefined)
  const costed = costChain(operation, estimate, ground)
  const minutes = (field: OverridableField) => {
    if (operation[field].high === 0) return '–'
    const byHand = operation.overridden.find((one) => one.field === field)
    const chain = minutesChain(operation, field, ground)
    return (
      <span>
        <AskNumber of={chain} chain={() => chain}>
          {pointShown(operation[field])}
        </AskNumber>
        {byHand && (
          <span className="changed-number small">
            <Mark name="hand" size={12} /> was {pointShown(byHand.original)}
          </span>
        )}
      </span>
    )
  }
  return (
    <>
      <tr className={operation.overridden.length > 0 ? 'operation-changed' : undefined}>
        <th scope="row" className="table-title" data-label="Operation">
          <span>
            {place}. {operation.name}
            <span className="muted small operation-centre">{workCentreNames[operation.workCentre]}</span>
          </span>
        </th>
        <td data-label="Set-up (min)" className={nothing('setUpMinutes')}>
          {minutes('setUpMinutes')}
        </td>
        <td
          data-label={`Run, each ${operation.runsPer === 'start' ? 'start' : 'good piece'} (min)`}
          className={nothing('runMinutesPerPiece')}
        >
          {minutes('runMinutesPerPiece')}
        </td>
        <td data-label="Waiting (min)" className={nothing('elapsedMinutes')}>
          {minutes('elapsedMinutes')}
        </td>
        <td data-label="Driven by" className="operation-driver muted small">
          {readSentence(operation.driver, ground.lengthUnit)}
        </td>
        <td data-label={`Cost, ${estimate.pieceCount}`} className="nowrap">
          <AskNumber of={costed} chain={() => costed}>
            {moneyText(operationCents(operation, estimate), ground.currency)}
          </AskNumber>
        </td>
        {edit && (
          <td data-label="">
            {set?.length === 0 && (
              <Button
                kind="quiet"
                onClick={() => start(first)}
                aria-label={`Set the time of ${operation.name}`}
              >
                Change
              </Button>
            )}
          </td>
        )}
      </tr>
      {edit && set && set.length > 0 && (
        <tr className="operation-edit">
          <td colSpan={7} data-label="">
            <div className="stack">
              {set.map(({ id, index, field }) => (
                <fieldset key={id} className="operation-set">
                  <legend className="small strong">
                    {operation.name}, {fieldWords[field]}: worked out {pointShown(computed[field])} min
                  </legend>
                  <div className="fields">
                    <NumberField
                      label="Most likely"
                      unit="min"
                      {...edit.field(`overrides.${index}.likely`)}
                    />
                    <NumberField
                      label="Hardly less"
                      unit="min"
                      hint="Left empty: as likely"
                      {...edit.field(`overrides.${index}.low`)}
                    />
                    <NumberField
                      label="Hardly more"
                      unit="min"
                      hint="Left empty: as likely"
                      {...edit.field(`overrides.${index}.high`)}
                    />
                    <TextField label="Why" wide {...edit.field(`overrides.${index}.reason`)} />
                  </div>
                  <Button kind="quiet" onClick={() => edit.overrides.remove(index)}>
                    Undo: back to {pointShown(computed[field])} min
                  </Button>
                </fieldset>
              ))}
              <div className="row">
                {fields
                  .filter((field) => computed[field].high > 0 && !set.some((one) => one.field === field))
                  .map((field) => (
                    <Button key={field} kind="quiet" onClick={() => start(field)}>
                      Set {fieldWords[field]} too
                    </Button>
                  ))}
              </div>
            </div>
          </td>
        </tr>
      )}
    </>
  )
}
