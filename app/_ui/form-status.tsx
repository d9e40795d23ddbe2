import { Mark } from './marks'

export type FormState =
  | { state: 'idle' }
  | { state: 'saving'; message?: string }
  | { state: 'saved'; message?: string }
  | { state: 'not-sent'; message?: string }
  | { state: 'refused'; message: string; changes?: readonly Change[] }

/** A field that somebody else has changed meanwhile: from, to, and what stands in this form. */
type Change = { name: string; before: string; after: string; yours: string | null }

/** What became of what was typed. Stays in the page so that a screen reader hears the change. */
export function FormStatus({ status }: { status: FormState }) {
  if (status.state === 'refused') {
    return (
      <div className="form-status form-status-refused" role="alert">
        <Mark name="cross" />
        <div>
          <span>{status.message}</span>
          {status.changes && status.changes.length > 0 && (
            <ul>
              {status.changes.map(({ name, before, after, yours }) => (
                <li key={name}>
                  {name}: was {before}, theirs is {after}
                  {yours !== null && `, yours is ${yours}`}
                </li>
              ))}
            </ul>
          )}
        </div>
      </div>
    )
  }
  return (
    <div className="form-status" role="status">
      {status.state === 'saving' && (status.message ?? 'Saving')}
      {status.state === 'saved' && (
        <>
          <Mark name="tick" />
          <span>{status.message ?? 'Saved'}</span>
        </>
      )}
      {status.state === 'not-sent' && (
        <>
          <Mark name="wait" />
          <span>{status.message ?? 'Not yet saved: kept on this device until the connection is back'}</span>
        </>
      )}
    </div>
  )
}
