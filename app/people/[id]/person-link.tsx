'use client'

import { useState } from 'react'
import { PressAction } from '@/app/_shop/press-action'
import { linkAction } from '../actions'
import { ShownLink } from '../shown-link'

export function PersonLink({
  person,
  hasPassword,
}: {
  person: { id: number; name: string }
  hasPassword: boolean
}) {
  const [made, setMade] = useState<{ linkPath: string; mailed: string } | null>(null)
  const make = async (input: { id: number }) => {
    const outcome = await linkAction(input)
    if (outcome.ok) setMade(outcome.value)
    return outcome
  }
  return (
    <div className="stack">
      <p>
        {hasPassword
          ? 'A link to set a new password. The old password holds until the link is used.'
          : 'A new link in place of the first one.'}
      </p>
      <PressAction label="Make a link" input={{ id: person.id }} action={make} />
      {made && <ShownLink key={made.linkPath} {...made} name={person.name} />}
    </div>
  )
}
