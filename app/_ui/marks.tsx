/** The small drawn marks that stand beside words, so that no state is told by colour alone. */
const paths = {
  tick: 'M2.5 8.5 6.5 12.5 13.5 3.5',
  cross: 'M3 3 13 13 M13 3 3 13',
  wait: 'M8 1.5a6.5 6.5 0 1 0 0 13a6.5 6.5 0 1 0 0-13 M8 4.5V8l2.5 2',
  ask: 'M8 1.5 14.5 8 8 14.5 1.5 8Z M8 5v3.6 M8 10.6v.4',
  hand: 'M2 13.5h12 M8 2v8 M4.5 6.5 8 10l3.5-3.5',
  wave: 'M1.5 9.5c2-5 4.5-5 6.5 0s4.5 5 6.5 0',
  sag: 'M1.5 3.5h3c1.5 0 2 7 3.5 7s2-7 3.5-7h3 M1.5 14h13',
  flat: 'M1.5 4h13 M1.5 12h13 M4 4v8 M12 4v8',
  stop: 'M5 1.5h6L14.5 5v6L11 14.5H5L1.5 11V5Z M5.5 5.5l5 5 M10.5 5.5l-5 5',
  caution: 'M8 1.5 15 14H1Z M8 6v4 M8 11.7v.4',
  info: 'M8 1.5a6.5 6.5 0 1 0 0 13a6.5 6.5 0 1 0 0-13 M8 7v4.5 M8 4.4v.4',
  up: 'M3 10 8 5l5 5',
  down: 'M3 6l5 5 5-5',
  updown: 'M4.5 6 8 2.5 11.5 6 M4.5 10 8 13.5 11.5 10',
  plus: 'M8 2v12 M2 8h12',
  minus: 'M2 8h12',
  menu: 'M1.5 4h13 M1.5 8h13 M1.5 12h13',
  left: 'M10 3 5 8l5 5',
  right: 'M6 3l5 5-5 5',
  drop: 'M8 2v8.5 M4.5 7 8 10.5 11.5 7 M2 14h12',
} as const

export type MarkName = keyof typeof paths

export function Mark({ name, size = 16 }: { name: MarkName; size?: number }) {
  return (
    <svg
      width={size}
      height={size}
      viewBox="0 0 16 16"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.75"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      <path d={paths[name]} />
    </svg>
  )
}
