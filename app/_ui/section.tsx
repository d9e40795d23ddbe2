import { type ReactNode, useId } from 'react'

/** A titled part of a screen on its scribed line. */
export function Section({
  title,
  id,
  aside,
  children,
}: {
  title: string
  id?: string
  aside?: ReactNode
  children: ReactNode
}) {
  const titleId = useId()
  return (
    <section className="section" id={id} aria-labelledby={titleId}>
      <div className="section-head">
        <h2 id={titleId}>{title}</h2>
        {aside}
      </div>
      {children}
    </section>
  )
}

/** Names and what they are, one a line. */
export function Facts({ facts }: { facts: readonly (readonly [name: string, value: ReactNode])[] }) {
  return (
    <dl className="facts">
      {facts.map(([name, value]) => [<dt key={`${name}-name`}>{name}</dt>, <dd key={name}>{value}</dd>])}
    </dl>
  )
}
