'use client'

import { useRouter } from 'next/navigation'
import { LengthField } from '@/app/_shop/length-field'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button, LinkButton } from '@/app/_ui/button'
import { NumberField, TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import type { ShopUnits } from '@/lib/records/fields'
import { newSourceForm, type SourceTyped, sourceForm } from '@/lib/records/source/schema'
import { addSourceAction, changeSourceAction } from './actions'

type Saved = { id: number; version: number }
type Typed = Omit<SourceTyped, keyof Saved> & Partial<Saved>

const nothing: Typed = {
  name: '',
  contactText: '',
  email: '',
  phone: '',
  canBendText: '',
  minimumRadiusRatio: '',
  maximumSizeMm: '',
  alloysText: '',
  notesText: '',
}

/** An outside bender; the same form enters a new one and changes one. */
export function SourceForm({ units, source }: { units: ShopUnits; source?: Typed & Saved }) {
  const router = useRouter()
  const { form, field, submit, status, saving } = useRecordForm<Typed, { id: number } | { version: number }>({
    schema: source ? sourceForm(units) : newSourceForm(units),
    start: source ?? nothing,
    action: (typed) => (source ? changeSourceAction(typed) : addSourceAction(typed)),
    onSaved: (saved) => router.push(`/sources/${source?.id ?? ('id' in saved ? saved.id : '')}`),
  })
  return (
    <form method="post" onSubmit={submit} className="stack stack-loose" noValidate>
      <Section title="Who it is">
        <div className="fields">
          <TextField label="Name" maxLength={120} autoComplete="off" wide {...field('name')} />
          <TextField label="Whom to ask for" maxLength={200} autoComplete="off" {...field('contactText')} />
          <TextField label="E-mail" type="email" maxLength={200} autoComplete="off" {...field('email')} />
          <TextField label="Phone" type="tel" maxLength={60} autoComplete="off" {...field('phone')} />
        </div>
      </Section>
      <Section title="What they can bend">
        <div className="fields">
          <TextArea
            label="In words"
            rows={3}
            maxLength={1000}
            hint="Method, dies they have, shapes they take"
            {...field('canBendText')}
          />
          <NumberField
            label="Tightest radius"
            unit="× size"
            optional
            inputMode="decimal"
            hint="Centreline radius over the tube’s size in the bend"
            {...field('minimumRadiusRatio')}
          />
          <LengthField
            label="Largest tube"
            optional
            lengthUnit={units.lengthUnit}
            typed={form.watch('maximumSizeMm')}
            {...field('maximumSizeMm')}
          />
          <TextField label="Alloys and tempers" maxLength={400} wide {...field('alloysText')} />
        </div>
      </Section>
      <Section title="Notes">
        <TextArea label="For the shop only" rows={3} maxLength={4000} {...field('notesText')} />
      </Section>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {source ? 'Save the bender' : 'Add the bender'}
        </Button>
        <LinkButton kind="quiet" href={source ? `/sources/${source.id}` : '/sources'}>
          Leave without saving
        </LinkButton>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
