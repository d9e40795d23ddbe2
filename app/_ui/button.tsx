import Link from 'next/link'
import type { ComponentProps, ReactNode } from 'react'
import { classNames } from './class-names'

/** primary: the one next step. plain: anything else. quiet: reads as text. stop: hurts or scraps. */
export type ButtonKind = 'primary' | 'plain' | 'quiet' | 'stop'

interface Look {
  kind?: ButtonKind
  big?: boolean
  wide?: boolean
}

function buttonClass({ kind = 'plain', big, wide }: Look, extra?: string): string {
  return classNames(
    'button',
    kind !== 'plain' && `button-${kind}`,
    big && 'button-big',
    wide && 'button-wide',
    extra,
  )
}

export function Button({
  kind,
  big,
  wide,
  pending = false,
  pendingLabel,
  className,
  children,
  type = 'button',
  disabled,
  ...rest
}: ComponentProps<'button'> & Look & { pending?: boolean; pendingLabel?: ReactNode }) {
  return (
    <button
      type={type}
      className={buttonClass({ kind, big, wide }, className)}
      disabled={disabled || pending}
      aria-busy={pending || undefined}
      {...rest}
    >
      {pending ? (pendingLabel ?? children) : children}
    </button>
  )
}

export function LinkButton({ kind, big, wide, className, ...rest }: ComponentProps<typeof Link> & Look) {
  return <Link className={buttonClass({ kind, big, wide }, className)} {...rest} />
}
