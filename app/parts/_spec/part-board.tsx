'use client'

import '../part.css'
import { type ReactNode, useDeferredValue, useMemo, useState } from 'react'
import { FormProvider, useWatch } from 'react-hook-form'
import { Part3d } from '@/app/_drawing/part-3d'
import { PartDrawing } from '@/app/_drawing/part-drawing'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import { drawnPart } from '@/lib/records/part/rules'
import { type SetupTyped, setupForm } from '@/lib/records/setup/schema'
import { saveSetupAction } from '../actions'
import { SetUpFields } from './set-up-fields'
import { askSpec, faultsAtFields, type SpecGround } from './spec-question'
import { SpecView } from './spec-view'

/** The part's drawing, the set-up it is bent with, and what that does to it, answered while the set-up is chosen. */
export function PartBoard({
  ground,
  start,
  isSaved,
  mayWrite,
  facts,
}: {
  ground: SpecGround
  start: SetupTyped
  /** A set-up is kept for this revision; otherwise `start` is only a suggestion. */
  isSaved: boolean
  mayWrite: boolean
  facts: ReactNode
}) {
  const { units, revision, tooling } = ground
  const [selectedBend, setSelectedBend] = useState<number | null>(null)
  const record = useRecordForm<SetupTyped, { version: number }>({
    schema: setupForm(units),
    start,
    action: saveSetupAction,
  })
  const { form, submit, status, saving } = record
  const typed = JSON.stringify(useDeferredValue(useWatch({ control: form.control })))
  const asked = useMemo(() => askSpec(ground, JSON.parse(typed) as SetupTyped), [ground, typed])
  const part = drawnPart(revision)
  return (
    <FormProvider {...form}>
      <Section title="Drawing" id="drawing">
        <div className="stack">
          <PartDrawing
            part={part}
            units={units.lengthUnit}
            selectedBend={selectedBend}
            onSelectBend={setSelectedBend}
          />
          <Part3d part={part} units={units.lengthUnit} selectedBend={selectedBend} />
        </div>
      </Section>
      {facts}
      <Section title="Set-up" id="set-up">
        <form method="post" onSubmit={submit} className="stack" noValidate>
          <fieldset className="bare-fieldset" disabled={!mayWrite}>
            <SetUpFields tooling={tooling} lengthUnit={units.lengthUnit} faultAt={faultsAtFields(asked)} />
          </fieldset>
          {!mayWrite && !isSaved && (
            <p className="muted">No set-up is chosen yet: this one is only suggested.</p>
          )}
          {mayWrite && (
            <div className="form-foot">
              <Button type="submit" kind="primary" pending={saving}>
                Save the set-up
              </Button>
              <FormStatus status={status} />
              {!isSaved && status.state === 'idle' && (
                <span className="muted small">Suggested, not saved yet</span>
              )}
              {isSaved && form.formState.isDirty && status.state !== 'saving' && (
                <span className="muted small">The spec below is of what is chosen here, not saved yet</span>
              )}
            </div>
          )}
        </form>
      </Section>
      <SpecView
        asked={asked}
        unit={units.lengthUnit}
        selectedBend={selectedBend ?? 0}
        onSelectBend={setSelectedBend}
      />
    </FormProvider>
  )
}
