import { useId } from 'react'
import { Button } from './button'

/** A search that is a plain GET form: it works before any script has loaded, and its answer has an address. */
export function SearchBox({
  label,
  action,
  name = 'q',
  defaultValue,
  placeholder,
  keep,
}: {
  label: string
  action: string
  name?: string
  defaultValue?: string
  placeholder?: string
  /** Other search parameters to carry along. */
  keep?: Readonly<Record<string, string | undefined>>
}) {
  const id = useId()
  return (
    <search>
      <form className="search" action={action} method="get">
        <label className="visually-hidden" htmlFor={id}>
          {label}
        </label>
        <input
          className="field-input"
          id={id}
          type="search"
          name={name}
          defaultValue={defaultValue}
          placeholder={placeholder ?? label}
          enterKeyHint="search"
          autoComplete="off"
        />
        {Object.entries(keep ?? {}).map(([key, value]) =>
          value === undefined ? null : <input key={key} type="hidden" name={key} value={value} />,
        )}
        <Button type="submit">Find</Button>
      </form>
    </search>
  )
}
