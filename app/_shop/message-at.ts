import { type FieldErrors, type FieldValues, get } from 'react-hook-form'

/** The message at one field of a form, however deep the field lies. */
export function messageAt<Typed extends FieldValues>(
  errors: FieldErrors<Typed>,
  name: string,
): string | undefined {
  const fault: unknown = get(errors, name)
  if (typeof fault !== 'object' || fault === null || !('message' in fault)) return undefined
  return typeof fault.message === 'string' ? fault.message : undefined
}
