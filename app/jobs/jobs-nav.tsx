import { SectionNav } from '@/app/_ui/section-nav'

const places = [
  { href: '/jobs', label: 'Jobs' },
  { href: '/faults', label: 'Faults' },
  { href: '/lessons', label: 'Lessons' },
  { href: '/trace', label: 'Trace' },
] as const

/** The lists that hang on jobs. */
export function JobsNav({ current }: { current: (typeof places)[number]['href'] }) {
  return (
    <SectionNav
      label="Jobs and what hangs on them"
      links={places.map((place) => ({ ...place, current: place.href === current }))}
    />
  )
}
