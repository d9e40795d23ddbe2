import type { ComponentProps } from 'react'
import { TextField } from '@/app/_ui/field'

/** Nobody needs one: a link can always be handed over. */
export function EmailField(props: Omit<ComponentProps<typeof TextField>, 'label'>) {
  return (
    <TextField
      label="E-mail"
      type="email"
      inputMode="email"
      maxLength={254}
      autoComplete="off"
      autoCapitalize="none"
      spellCheck={false}
      hint="May stay empty. Links to set a password go there if the shop sends mail."
      {...props}
    />
  )
}
