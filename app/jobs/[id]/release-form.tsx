'use client'

import { useWatch } from 'react-hook-form'
import { filled } from '@/app/_shop/filled'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { FieldError, FieldGroup, TextArea } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { numbersText } from '@/lib/records/job-end/rules'
import { releaseForm } from '@/lib/records/release/schema'
import { releaseAction } from '../actions'

/** Lets chosen pieces go, with what the releasing person has to say of them. */
export function ReleaseForm({
  jobId,
  pieces,
}: {
  jobId: number
  /** Those that nothing stands in the way of. */
  pieces: readonly { id: number; number: number }[]
}) {
  const all = pieces.map(({ id }) => String(id))
  const { form, field, submit, status, saving } = useRecordForm({
    schema: releaseForm,
    start: { jobId: String(jobId), pieceIds: all, noteText: '' },
    action: releaseAction,
  })
  const pieceIds = useWatch({ control: form.control, name: 'pieceIds' })
  const chosen = pieces.filter(({ id }) => pieceIds.some((one) => String(one) === String(id)))
  const choose = (ids: string[]) =>
    form.setValue('pieceIds', ids, { shouldDirty: true, shouldValidate: form.formState.isSubmitted })
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <FieldGroup legend="Ready to release">
        <div className="piece-checks wide">
          {pieces.map((piece) => (
            <label key={piece.id} className="check">
              <input type="checkbox" {...filled(form, 'pieceIds', String(piece.id))} />
              <span>Piece {piece.number}</span>
            </label>
          ))}
        </div>
        {pieces.length > 1 && (
          <div className="row wide">
            <Button onClick={() => choose(all)}>All {pieces.length}</Button>
            <Button onClick={() => choose([])}>None</Button>
          </div>
        )}
        <FieldError id="release-pieces" error={form.formState.errors.pieceIds?.message} />
      </FieldGroup>
      <div className="fields">
        <TextArea
          label="Note on the release"
          hint="Stands on the inspection record, under what was checked"
          rows={2}
          {...field('noteText')}
        />
      </div>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {chosen.length === 0
            ? 'Release'
            : `Release ${chosen.length === 1 ? 'piece' : 'pieces'} ${numbersText(chosen.map(({ number }) => number))}`}
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
