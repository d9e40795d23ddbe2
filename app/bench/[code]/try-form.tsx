'use client'

import { useState } from 'react'
import { Button } from '@/app/_ui/button'
import { CheckField, FieldGroup, TextField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { Stepper } from '@/app/_ui/stepper'
import type { BenchTyped } from '@/lib/records/bend-record/schema'
import { useBench } from '../bench-queue'
import { newKey, type QueuedEntry } from '../queue'

const looks = [
  ['', 'Not looked at'],
  ['clean', 'Clean'],
  ['marked', 'Tool marks'],
  ['wrinkled', 'Wrinkled'],
  ['flattened', 'Flattened'],
  ['cracked', 'Cracked'],
] as const
const penetrants = [
  ['notDone', 'Not done'],
  ['clear', 'Clear'],
  ['indication', 'Indication'],
] as const
const steps = ['Angles', 'Look', 'Sizes', 'Gauge'] as const
const sizes = [
  ['radiusMm', 'Centreline radius'],
  ['widthOutsideMm', 'Width, outer face'],
  ['widthMiddleMm', 'Width, middle'],
  ['widthInsideMm', 'Width, inner face'],
  ['heightMm', 'Height in the bend plane'],
  ['wallOutsideMm', 'Wall, outside'],
  ['wallInsideMm', 'Wall, inside'],
] as const

export type Readings = Omit<Extract<BenchTyped, { kind: 'complete' }>, 'kind' | 'clientKey' | 'recordKey'>
type Step = (typeof steps)[number]
type TextName = Exclude<keyof Readings, 'look' | 'dyePenetrant'>

export type TryFormProps = {
  scanCode: string
  position: number
  label: string
  /** The try that waits for its reading, with what was read of it already; null: a new try. */
  completes: { key: string; readings: Readings } | null
  aim: { loadedDeg: number; atPressDeg: number; finalDeg: number } | null
  /** Bent on the shop's press: there is an angle under load and one let go. */
  bentHere: boolean
  meltsOut: boolean
  needsPenetrant: boolean
  lengthUnit: 'in' | 'mm'
}

export const noReadings: Readings = {
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
  look: '',
  dyePenetrant: 'notDone',
  gaugeText: 'Digital protractor',
  gaugeUncertaintyDeg: '0.2',
  noteText: '',
}

/** The entry of this bend that is still on the device: one that waits, or one to correct. */
function onDevice(items: readonly QueuedEntry[], { scanCode, position, completes }: TryFormProps) {
  return items.findLast(
    ({ entry }) =>
      (entry.kind === 'try' && entry.scanCode === scanCode && entry.bendPosition === position) ||
      (entry.kind === 'complete' && entry.recordKey === completes?.key),
  )
}

/** The next reading at a bend: a new try, the rest of one, or one that the shop refused, to correct. */
export function TryForm(props: TryFormProps) {
  const { items, userId } = useBench()
  const found = onDevice(items, props)
  // Somebody else's refused reading is theirs to correct: corrected here it would stand in the wrong name.
  if (found && (!found.refusal || found.userId !== userId)) {
    return (
      <p role="status">
        <strong>{found.label} is kept on this device.</strong> It is judged when it reaches the shop’s
        computer{found.userId !== userId && ', once whoever read it signs in here'}; then the next reading can
        be logged here.
      </p>
    )
  }
  return <Entry key={found ? `${found.key} refused` : 'new'} {...props} refused={found ?? null} />
}

/** Where the fault is, or else where the first thing is that is still to be read. */
function stepToBeginAt(values: Readings, props: TryFormProps, errors: Record<string, string>): Step {
  const wrong = Object.keys(errors)[0]
  if (wrong !== undefined) return stepOf(wrong)
  const finalRead = values.angleFinalDeg !== ''
  const anglesRead = props.bentHere
    ? values.angleAtPressDeg !== '' && (!props.meltsOut || finalRead)
    : finalRead
  return anglesRead && values.look === '' ? 'Look' : 'Angles'
}

/** What the try would still wait for, logged as it stands. */
function leftText(values: Readings, { bentHere, meltsOut, needsPenetrant }: TryFormProps): string {
  const noAngle = values.angleAtPressDeg === '' && values.angleFinalDeg === ''
  const left = [
    ...(noAngle ? [bentHere ? 'the angle at the press' : 'the angle'] : []),
    ...(meltsOut && values.angleFinalDeg === '' ? ['the angle after melt-out'] : []),
    ...(values.look === '' ? ['the look'] : []),
    ...(needsPenetrant && values.dyePenetrant === 'notDone' ? ['the dye penetrant'] : []),
  ]
  return left.length === 0
    ? 'Everything is there to judge it by.'
    : `Still to read: ${left.join(', ')}. What is logged now can be completed later.`
}

function stepOf(name: string): Step {
  if (name === 'look' || name === 'dyePenetrant') return 'Look'
  if (name.startsWith('gauge') || name === 'noteText') return 'Gauge'
  return name.endsWith('Mm') ? 'Sizes' : 'Angles'
}

function Entry(props: TryFormProps & { refused: QueuedEntry | null }) {
  const { scanCode, position, completes, aim, refused, lengthUnit, bentHere, meltsOut } = props
  const { add } = useBench()
  const errors = refused?.refusal?.fields ?? {}
  const [clientKey] = useState(() => refused?.key ?? newKey())
  const [values, setValues] = useState<Readings>(() => ({
    ...noReadings,
    ...completes?.readings,
    ...(refused?.entry as Partial<Readings> | undefined),
  }))
  const [step, setStep] = useState<Step>(() => stepToBeginAt(values, props, errors))
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const put = (change: Partial<Readings>) => setValues((before) => ({ ...before, ...change }))
  const stepper = (name: TextName, label: string, unit: string, startAt?: number) => (
    <Stepper
      key={name}
      name={name}
      label={label}
      unit={unit}
      step={unit === 'in' ? 0.005 : 0.1}
      decimals={unit === 'in' ? 3 : 1}
      defaultValue={values[name]}
      {...(startAt !== undefined && { startAt })}
      {...(errors[name] !== undefined && { error: errors[name] })}
      onChange={(typed) => put({ [name]: typed })}
    />
  )
  const log = async () => {
    setStatus({ state: 'saving' })
    const head = completes
      ? { kind: 'complete' as const, clientKey, recordKey: completes.key }
      : {
          kind: 'try' as const,
          clientKey,
          scanCode,
          bendPosition: position,
          targetAtPressDeg: aim ? aim.atPressDeg.toFixed(2) : '',
        }
    try {
      await add({ ...values, ...head }, props.label)
      setStatus({ state: 'idle' })
    } catch {
      setStatus({
        state: 'refused',
        message: 'This browser keeps nothing on the device. Note the reading on the traveller.',
      })
    }
  }
  const next = steps[steps.indexOf(step) + 1]
  return (
    <div className="stack">
      <div className="bench-steps" role="group" aria-label="What is read">
        {steps.map((one) => (
          <Button key={one} aria-pressed={one === step} onClick={() => setStep(one)}>
            {one}
          </Button>
        ))}
      </div>
      {step === 'Angles' && (
        <>
          {bentHere && stepper('loadedAngleDeg', 'Loaded angle reached', '°', aim?.loadedDeg)}
          {bentHere && stepper('angleAtPressDeg', 'Angle at the press, let go', '°', aim?.atPressDeg)}
          {!bentHere && stepper('angleFinalDeg', 'Angle, finished', '°')}
          {bentHere && meltsOut && stepper('angleFinalDeg', 'Angle after melt-out', '°', aim?.finalDeg)}
        </>
      )}
      {step === 'Look' && (
        <>
          <FieldGroup legend="Look">
            <div className="bench-choices wide">
              {looks.map(([value, label]) => (
                <CheckField
                  key={value}
                  type="radio"
                  name="look"
                  label={label}
                  checked={values.look === value}
                  onChange={() => put({ look: value })}
                />
              ))}
            </div>
          </FieldGroup>
          <FieldGroup legend="Dye penetrant">
            <div className="bench-choices wide">
              {penetrants.map(([value, label]) => (
                <CheckField
                  key={value}
                  type="radio"
                  name="dyePenetrant"
                  label={label}
                  checked={values.dyePenetrant === value}
                  onChange={() => put({ dyePenetrant: value })}
                />
              ))}
            </div>
          </FieldGroup>
        </>
      )}
      {step === 'Sizes' && sizes.map(([name, label]) => stepper(name, label, lengthUnit))}
      {step === 'Gauge' && (
        <>
          <TextField
            label="Gauge"
            value={values.gaugeText}
            onChange={(event) => put({ gaugeText: event.target.value })}
          />
          {stepper('gaugeUncertaintyDeg', 'Gauge’s uncertainty, ±', '°')}
          <TextField
            label="Note"
            value={values.noteText}
            onChange={(event) => put({ noteText: event.target.value })}
          />
        </>
      )}
      <div className="stack stack-tight">
        {next && (
          <Button big wide onClick={() => setStep(next)}>
            Next: {next.toLowerCase()}
          </Button>
        )}
        <p className="muted">{leftText(values, props)}</p>
        <Button kind="primary" big wide pending={status.state === 'saving'} onClick={() => void log()}>
          {refused ? 'Send it corrected' : completes ? 'Complete this try' : 'Log this try'}
        </Button>
        <FormStatus status={status} />
      </div>
    </div>
  )
}
