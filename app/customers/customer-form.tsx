'use client'

import { useRouter } from 'next/navigation'
import { useFieldArray } from 'react-hook-form'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button, LinkButton } from '@/app/_ui/button'
import { TextArea, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Section } from '@/app/_ui/section'
import { type CustomerTyped, customerForm, newCustomerForm } from '@/lib/records/customer/schema'
import { addCustomerAction, changeCustomerAction } from './actions'

type Saved = { id: number; version: number }
type Typed = Omit<CustomerTyped, keyof Saved> & Partial<Saved>

const noContact = { name: '', roleText: '', email: '', phone: '' }
const nothing: Typed = { name: '', addressText: '', notesText: '', contacts: [noContact] }

/** A customer and the people there; the same form enters a new one and changes one. */
export function CustomerForm({ customer }: { customer?: Typed & Saved }) {
  const router = useRouter()
  const { form, field, submit, status, saving } = useRecordForm<Typed, { id: number }>({
    schema: customer ? customerForm : newCustomerForm,
    start: customer ?? nothing,
    action: (typed) => (customer ? changeCustomerAction(typed) : addCustomerAction(typed)),
    onSaved: ({ id }) => router.push(`/customers/${id}`),
  })
  const contacts = useFieldArray({ control: form.control, name: 'contacts' })
  return (
    <form method="post" onSubmit={submit} className="stack stack-loose" noValidate>
      <Section title="Who it is">
        <div className="fields">
          <TextField label="Name" maxLength={120} autoComplete="off" wide {...field('name')} />
          <TextArea label="Address" rows={3} maxLength={500} {...field('addressText')} />
          <TextArea
            label="Notes"
            rows={3}
            maxLength={2000}
            hint="For the shop only: never on a quote or a paper that goes out"
            {...field('notesText')}
          />
        </div>
      </Section>
      <Section title="People there">
        <div className="stack">
          {contacts.fields.map((contact, index) => (
            <fieldset key={contact.id} className="stack">
              <legend className="strong">Contact {index + 1}</legend>
              <div className="fields">
                <TextField
                  label="Name"
                  maxLength={80}
                  autoComplete="off"
                  {...field(`contacts.${index}.name`)}
                />
                <TextField
                  label="What they do"
                  maxLength={80}
                  autoComplete="off"
                  {...field(`contacts.${index}.roleText`)}
                />
                <TextField
                  label="E-mail"
                  type="email"
                  autoComplete="off"
                  {...field(`contacts.${index}.email`)}
                />
                <TextField
                  label="Phone"
                  type="tel"
                  maxLength={40}
                  autoComplete="off"
                  {...field(`contacts.${index}.phone`)}
                />
              </div>
              <div className="row">
                <Button kind="quiet" onClick={() => contacts.remove(index)}>
                  Remove contact {index + 1}
                </Button>
              </div>
            </fieldset>
          ))}
          <div className="row">
            <Button onClick={() => contacts.append(noContact)}>Add a contact</Button>
          </div>
        </div>
      </Section>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          {customer ? 'Save the customer' : 'Add the customer'}
        </Button>
        <LinkButton kind="quiet" href={customer ? `/customers/${customer.id}` : '/customers'}>
          Leave without saving
        </LinkButton>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
