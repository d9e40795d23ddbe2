import { Notice } from '@/app/_ui/notice'
import { Facts } from '@/app/_ui/section'
import { formatTemperature } from '@/lib/core/format'
import type { Filler } from '@/lib/core/materials/low-melt'
import { readSentence } from '@/lib/core/sentence'
import type { LengthUnit } from '@/lib/core/units'

/** What can hurt at this pot, before anything else on its page. */
export function FillerCautions({ alloy, unit }: { alloy: Filler; unit: LengthUnit }) {
  const metals = [alloy.containsLead && 'lead', alloy.containsCadmium && 'cadmium']
    .filter(Boolean)
    .join(' and ')
  return (
    <div className="stack">
      {alloy.kind === 'lowMelt' && (
        <Notice kind="caution" title="Water in a tube or on a tool throws molten alloy">
          Dry the tube, the plugs and the ladle before pouring.
        </Notice>
      )}
      {alloy.hazards.length > 0 && (
        <Notice kind="caution" title={metals ? `This alloy holds ${metals}` : 'At this pot'}>
          <ul className="plain-list">
            {alloy.hazards.map((hazard) => (
              <li key={hazard}>{readSentence(hazard, unit)}</li>
            ))}
          </ul>
        </Notice>
      )}
    </div>
  )
}

export function FillerFacts({ alloy, temperatureUnit }: { alloy: Filler; temperatureUnit: 'C' | 'F' }) {
  const temperature = (c: number) => formatTemperature(c, { unit: temperatureUnit })
  return (
    <Facts
      facts={[
        ...(alloy.kind === 'lowMelt'
          ? ([
              ['Begins to melt', temperature(alloy.solidusC)],
              ['All molten', temperature(alloy.liquidusC)],
              [
                'Made of',
                Object.entries(alloy.compositionPct)
                  .map(([symbol, percent]) => `${symbol} ${percent} %`)
                  .join(', '),
              ],
            ] as const)
          : []),
        ['As it freezes', alloy.growthNote],
        ['Bore', alloy.maxBoreNote],
      ]}
    />
  )
}
