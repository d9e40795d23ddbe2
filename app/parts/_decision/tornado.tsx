import { moneyText } from '@/app/_ui/money'
import type { TornadoBar } from '@/lib/core/cost/tornado'

/** One bar an item, from its tenth to its ninetieth of a hundred, all on one scale; the longest on top. */
export function Tornado({ bars, currency }: { bars: readonly TornadoBar[]; currency: string }) {
  const low = Math.min(...bars.flatMap((bar) => [bar.lowCents, bar.highCents]))
  const high = Math.max(...bars.flatMap((bar) => [bar.lowCents, bar.highCents]))
  const along = (cents: number) => (high > low ? ((cents - low) / (high - low)) * 98 : 0)
  const money = (cents: number) => moneyText(Math.round(cents), currency, { whole: true })
  return (
    <figure className="chart" aria-label="What moves the cost of the order most, longest first">
      <div className="stack stack-tight">
        {bars.map((bar) => {
          const from = Math.min(bar.lowCents, bar.highCents)
          const to = Math.max(bar.lowCents, bar.highCents)
          return (
            <div key={bar.key} className="bar-row">
              <span className="bar-label">{bar.label}</span>
              <svg height="26" aria-hidden="true">
                <rect
                  className="bar-fill"
                  x={`${along(from)}%`}
                  y="5"
                  width={`${Math.max(along(to) - along(from), 0.5)}%`}
                  height="16"
                />
              </svg>
              <span className="bar-text">
                {money(from)} to {money(to)}
              </span>
            </div>
          )
        })}
      </div>
      <figcaption className="small muted">
        Cost of the order with this one at the tenth and at the ninetieth of a hundred, all else as expected.
      </figcaption>
    </figure>
  )
}
