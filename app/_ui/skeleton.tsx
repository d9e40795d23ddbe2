/** Something is on its way: lines being scribed, and a word for those who can't see them. */
export function Skeleton({ label, lines = 6 }: { label: string; lines?: number }) {
  return (
    <div className="skeleton" role="status">
      <span className="muted">{label}</span>
      {Array.from({ length: lines }, (_, line) => (
        <div key={`line-${line + 1}`} className="skeleton-line" aria-hidden="true" />
      ))}
    </div>
  )
}
