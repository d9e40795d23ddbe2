'use client'

import { useRef, useState } from 'react'
import { Button, LinkButton } from '@/app/_ui/button'
import { FileField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { UndoToast } from '@/app/_ui/undo-toast'
import {
  acceptedEndings,
  byteText,
  fileKinds,
  kindOfMediaType,
  mostFileBytes,
} from '@/lib/records/file/rules'
import { addFileAction, detachFileAction, reattachFileAction } from './actions'

export type ShownFile = {
  id: number
  name: string
  mediaType: string
  byteCount: number
  /** When and by whom, in words. */
  cameText: string
}

function Preview({ file }: { file: ShownFile }) {
  const kind = kindOfMediaType(file.mediaType)
  if (kind !== 'png' && kind !== 'jpeg') return null
  return (
    <a href={`/files/${file.id}`} target="_blank" rel="noreferrer">
      <img
        className="part-file-picture"
        src={`/files/${file.id}`}
        alt={`Drawing ${file.name}`}
        loading="lazy"
      />
    </a>
  )
}

/** The customer's drawings: shown, given back byte for byte, attached and taken off again. */
export function PartFiles({
  partId,
  files,
  mayWrite,
}: {
  partId: number
  files: readonly ShownFile[]
  mayWrite: boolean
}) {
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const [error, setError] = useState<string>()
  const [takenOff, setTakenOff] = useState<ShownFile | null>(null)
  const formRef = useRef<HTMLFormElement>(null)
  const failed = 'The shop’s computer did not answer. The file is still chosen; try again.'

  const attach = async (form: HTMLFormElement) => {
    const typed = new FormData(form)
    typed.set('partId', String(partId))
    const file = typed.get('file')
    setError(undefined)
    if (!(file instanceof File) || file.size === 0) return setError('Choose a file first')
    if (file.size > mostFileBytes) return setError(`At most 25 MB; this one has ${byteText(file.size)}`)
    setStatus({ state: 'saving', message: `Sending ${file.name}, ${byteText(file.size)}` })
    const outcome = await addFileAction(typed).catch(() => null)
    if (outcome === null) return setStatus({ state: 'not-sent', message: failed })
    if (outcome.ok) {
      formRef.current?.reset()
      return setStatus({ state: 'saved', message: 'Attached' })
    }
    setError(outcome.fields.file)
    setStatus({ state: 'refused', message: outcome.message })
  }
  const takeOff = async (file: ShownFile) => {
    const outcome = await detachFileAction({ id: file.id }).catch(() => null)
    if (outcome?.ok) setTakenOff(file)
    else setStatus({ state: 'refused', message: outcome?.message ?? failed })
  }
  const putBack = async () => {
    if (takenOff === null) return undefined
    const outcome = await reattachFileAction({ id: takenOff.id }).catch(() => null)
    return outcome?.ok ? undefined : (outcome?.message ?? failed)
  }
  return (
    <div className="stack">
      {files.length === 0 ? (
        <p className="muted">No drawing is attached yet.</p>
      ) : (
        <ul className="ruled-list">
          {files.map((file) => {
            const kind = kindOfMediaType(file.mediaType)
            return (
              <li key={file.id} className="part-file">
                <Preview file={file} />
                <div className="stack stack-tight">
                  <span className="strong part-file-name">{file.name}</span>
                  <span className="muted small">
                    {kind ? fileKinds[kind].label : file.mediaType}, {byteText(file.byteCount)}.{' '}
                    {file.cameText}
                  </span>
                  <span className="row">
                    {kind !== null && fileKinds[kind].shown && (
                      <LinkButton href={`/files/${file.id}`} target="_blank" prefetch={false}>
                        Open {kind === 'pdf' ? 'the PDF' : 'it'}
                      </LinkButton>
                    )}
                    <a className="button button-quiet" href={`/files/${file.id}?save`} download={file.name}>
                      Save a copy<span className="visually-hidden"> of {file.name}</span>
                    </a>
                    {mayWrite && (
                      <Button kind="quiet" onClick={() => void takeOff(file)}>
                        Take off<span className="visually-hidden"> {file.name}</span>
                      </Button>
                    )}
                  </span>
                </div>
              </li>
            )
          })}
        </ul>
      )}
      {mayWrite && (
        <form
          ref={formRef}
          className="stack"
          noValidate
          onSubmit={(event) => {
            event.preventDefault()
            void attach(event.currentTarget)
          }}
        >
          <div className="fields">
            <FileField
              label="Attach a drawing"
              name="file"
              accept={acceptedEndings}
              hint="PDF, PNG, JPEG, DXF or STEP, at most 25 MB; kept byte for byte"
              error={error}
              wide
            />
          </div>
          <div className="form-foot">
            <Button type="submit" pending={status.state === 'saving'}>
              Attach
            </Button>
            <FormStatus status={status} />
          </div>
        </form>
      )}
      {takenOff && (
        <UndoToast
          message={`${takenOff.name} is taken off this part.`}
          onUndo={putBack}
          onDismiss={() => setTakenOff(null)}
        />
      )}
    </div>
  )
}
