import type { FieldValues, Path, UseFormReturn } from 'react-hook-form'

/**
 * What ties a control to its form, with what it holds already in the page as it is sent: without that a screen shows
 * the first of every choice, and empty fields, until its scripts have run.
 *
 * @param option what this control stands for, where several of one name are ticked or one of them chosen
 */
export function filled<Typed extends FieldValues>(
  form: Pick<UseFormReturn<Typed>, 'register' | 'getValues'>,
  name: Path<Typed>,
  option?: string,
) {
  const held: unknown = form.getValues(name)
  const tied = form.register(name)
  if (option !== undefined) {
    const defaultChecked = Array.isArray(held) ? held.includes(option) : held === option
    return { ...tied, value: option, defaultChecked }
  }
  if (typeof held === 'boolean') return { ...tied, defaultChecked: held }
  return typeof held === 'string' || typeof held === 'number' ? { ...tied, defaultValue: held } : tied
}
