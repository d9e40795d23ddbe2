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
  const [linkPath, setLinkPath] = useState<string | null>(null)
  const make = async (input: { id: number }) => {
    const outcome = await linkAction(input)
    if (outcome.ok) setLinkPath(outcome.value.linkPath)
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
      {linkPath && <ShownLink key={linkPath} linkPath={linkPath} name={person.name} />}
    </div>
  )
}
