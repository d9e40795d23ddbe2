import { classNames } from '@/app/_ui/class-names'
import type { Ink } from '@/lib/core/drawing/ink'
import type { Point } from '@/lib/core/drawing/vector'

/** A path through points, to a hundredth of a sheet unit. */
export function pathThrough(lines: readonly (readonly Point[])[], closed = false): string {
  return lines
    .map((line) => `M${line.map(([x, y]) => `${round(x)} ${round(y)}`).join('L')}${closed ? 'Z' : ''}`)
    .join('')
}

export function round(value: number): number {
  return Math.round(value * 100) / 100
}

/** Dimension lines, ticks, notes and balloons. */
export function Inks({
  inks,
  sizePx,
  selectedBend,
}: {
  inks: readonly Ink[]
  sizePx: number
  selectedBend?: number | null
}) {
  return inks.map((ink, index) => (
    <InkMark key={index} ink={ink} sizePx={sizePx} selectedBend={selectedBend} />
  ))
}

function InkMark({ ink, sizePx, selectedBend }: { ink: Ink; sizePx: number; selectedBend?: number | null }) {
  switch (ink.kind) {
    case 'line':
      return <path className={`ink-line ink-${ink.line}`} d={pathThrough([ink.points])} />
    case 'tick': {
      const [x, y] = ink.at
      const dx = Math.cos(ink.angleRad) * 5
      const dy = Math.sin(ink.angleRad) * 5
      return (
        <line
          className="ink-tick"
          x1={round(x - dx)}
          y1={round(y - dy)}
          x2={round(x + dx)}
          y2={round(y + dy)}
        />
      )
    }
    case 'dot':
      return <circle className="ink-tick" cx={round(ink.at[0])} cy={round(ink.at[1])} r="1.5" />
    case 'text': {
      const [x, y] = ink.at.map(round)
      const turned = Math.abs(ink.angleRad) > 1e-6
      return (
        <text
          className="ink-text"
          x={x}
          y={y}
          fontSize={sizePx}
          textAnchor={ink.anchor}
          transform={turned ? `rotate(${round((ink.angleRad * 180) / Math.PI)} ${x} ${y})` : undefined}
        >
          {ink.text}
        </text>
      )
    }
    case 'balloon': {
      const [x, y] = ink.at.map(round)
      return (
        <g
          className={classNames('ink-balloon', selectedBend === ink.bend && 'bend-lit')}
          data-bend={ink.bend}
        >
          <circle cx={x} cy={y} r={sizePx * 0.78} />
          <text x={x} y={y} fontSize={sizePx * 0.85}>
            {ink.text}
          </text>
        </g>
      )
    }
  }
}
