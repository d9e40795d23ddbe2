import { type ComponentProps, type ReactNode, useId } from 'react'
import { classNames } from './class-names'
import { Mark } from './marks'

interface Around {
  label: string
  hint?: ReactNode
  /** One message, or zod's list of which the first is shown. */
  error?: string | readonly string[]
  optional?: boolean
  wide?: boolean
}

function firstError(error: Around['error']): string | undefined {
  return typeof error === 'string' ? error || undefined : error?.[0]
}

function describedBy(id: string, { hint, error }: Around, echo?: boolean): string | undefined {
  const ids = [
    hint ? `${id}-hint` : '',
    echo ? `${id}-echo` : '',
    firstError(error) ? `${id}-error` : '',
  ].filter(Boolean)
  return ids.length > 0 ? ids.join(' ') : undefined
}

function Surround({ id, children, ...around }: Around & { id: string; children: ReactNode }) {
  return (
    <div className={classNames('field', around.wide && 'wide')}>
      <label className="field-label" htmlFor={id}>
        {around.label}
        {around.optional && <span className="field-optional"> (if you have it)</span>}
      </label>
      {children}
      {around.hint && (
        <div className="field-hint" id={`${id}-hint`}>
          {around.hint}
        </div>
      )}
      <FieldError id={id} error={around.error} />
    </div>
  )
}

export function FieldError({ id, error }: { id: string; error: Around['error'] }) {
  const message = firstError(error)
  if (!message) return null
  return (
    <div className="field-error" id={`${id}-error`} role="alert">
      <Mark name="cross" size={12} />
      <span>{message}</span>
    </div>
  )
}

function useField(id: string | undefined, around: Around, echo?: boolean) {
  const ownId = useId()
  const fieldId = id ?? ownId
  return {
    fieldId,
    control: {
      id: fieldId,
      'aria-describedby': describedBy(fieldId, around, echo),
      'aria-invalid': firstError(around.error) ? true : undefined,
    },
  }
}

export function TextField({
  label,
  hint,
  error,
  optional,
  wide,
  id,
  className,
  type = 'text',
  ...rest
}: ComponentProps<'input'> & Around) {
  const around = { label, hint, error, optional, wide }
  const { fieldId, control } = useField(id, around)
  return (
    <Surround id={fieldId} {...around}>
      <input type={type} className={classNames('field-input', className)} {...rest} {...control} />
    </Surround>
  )
}

/**
 * A quantity typed the way people write it: 1-1/2", 38.1 mm, 11 ga. Typed as text, so nothing typed is lost;
 * `understood` says back what it was read as.
 */
export function NumberField({
  label,
  hint,
  error,
  optional,
  wide,
  unit,
  understood,
  id,
  className,
  inputMode = 'text',
  ...rest
}: Omit<ComponentProps<'input'>, 'type'> & Around & { unit?: string; understood?: ReactNode }) {
  const around = { label, hint, error, optional, wide }
  const { fieldId, control } = useField(id, around, understood !== undefined)
  return (
    <Surround id={fieldId} {...around}>
      <div className={unit ? 'field-with-unit' : undefined}>
        <input
          type="text"
          inputMode={inputMode}
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          className={classNames('field-input', className)}
          {...rest}
          {...control}
        />
        {unit && (
          <span className="field-unit" aria-hidden="true">
            {unit}
          </span>
        )}
      </div>
      {understood !== undefined && (
        <output className="field-echo" id={`${fieldId}-echo`} htmlFor={fieldId}>
          {understood ? <>understood as {understood}</> : null}
        </output>
      )}
    </Surround>
  )
}

export interface Choice {
  value: string
  label: string
  disabled?: boolean
}

export function SelectField({
  label,
  hint,
  error,
  optional,
  wide,
  id,
  className,
  choices,
  placeholder,
  children,
  ...rest
}: ComponentProps<'select'> & Around & { choices?: readonly Choice[]; placeholder?: string }) {
  const around = { label, hint, error, optional, wide }
  const { fieldId, control } = useField(id, around)
  return (
    <Surround id={fieldId} {...around}>
      <select className={classNames('field-input', className)} {...rest} {...control}>
        {placeholder !== undefined && <option value="">{placeholder}</option>}
        {choices?.map((choice) => (
          <option key={choice.value} value={choice.value} disabled={choice.disabled}>
            {choice.label}
          </option>
        ))}
        {children}
      </select>
    </Surround>
  )
}

export function TextArea({
  label,
  hint,
  error,
  optional,
  wide = true,
  id,
  className,
  ...rest
}: ComponentProps<'textarea'> & Around) {
  const around = { label, hint, error, optional, wide }
  const { fieldId, control } = useField(id, around)
  return (
    <Surround id={fieldId} {...around}>
      <textarea className={classNames('field-input', className)} {...rest} {...control} />
    </Surround>
  )
}

export function CheckField({
  label,
  hint,
  error,
  wide,
  id,
  type = 'checkbox',
  ...rest
}: Omit<ComponentProps<'input'>, 'type'> & Omit<Around, 'optional'> & { type?: 'checkbox' | 'radio' }) {
  const { fieldId, control } = useField(id, { label, hint, error })
  return (
    <div className={classNames('field', wide && 'wide')}>
      <label className="check" htmlFor={fieldId}>
        <input type={type} {...rest} {...control} />
        <span>{label}</span>
      </label>
      {hint && (
        <div className="field-hint" id={`${fieldId}-hint`}>
          {hint}
        </div>
      )}
      <FieldError id={fieldId} error={error} />
    </div>
  )
}

export function DateField(props: Omit<ComponentProps<typeof TextField>, 'type'>) {
  return <TextField {...props} type="date" />
}

export function FileField({ className, ...props }: Omit<ComponentProps<typeof TextField>, 'type'>) {
  return <TextField {...props} type="file" className={classNames('field-file', className)} />
}

/** A group of fields that belong together, named. */
export function FieldGroup({ legend, children }: { legend: string; children: ReactNode }) {
  return (
    <fieldset className="stack">
      <legend className="strong">{legend}</legend>
      <div className="fields">{children}</div>
    </fieldset>
  )
}
