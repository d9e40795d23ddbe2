import { Facts } from '@/app/_ui/section'
import { formatAngle, formatNumber, formatPercent } from '@/lib/core/format'
import { angleCapability, capabilityFrom, capabilityInFullFrom } from '@/lib/core/inspection/angle-capability'
import { errorText } from '../try-readings'

const index = (value: number) => formatNumber(value, { decimals: 2, keepZeros: true })
const between = ({ low, high }: { low: number; high: number }) => `${index(low)} to ${index(high)}`

/** What the first tries say of the process, and how many it takes to say more. */
export function CapabilityText({
  errorsDeg,
  toleranceDeg,
}: {
  errorsDeg: readonly number[]
  toleranceDeg: number
}) {
  const said = angleCapability(errorsDeg, toleranceDeg)
  if (said.said === 'too-few') {
    return (
      <p className="muted">
        Capability is said from {capabilityFrom} first tries on; {said.count}{' '}
        {said.count === 1 ? 'is' : 'are'} measured, {said.lacking} to go.
      </p>
    )
  }
  if (said.said === 'no-spread') {
    return (
      <p className="muted">
        All {said.count} first tries read {errorText(said.meanDeg)}: the gauge does not tell them apart, so no
        capability is said.
      </p>
    )
  }
  const isFull = said.said === 'full'
  const steady = said.outside.length === 0 && said.runs.length === 0
  return (
    <>
      <Facts
        facts={[
          [
            'First tries',
            `${said.count}: mean ${errorText(said.meanDeg)}, sd ${formatAngle(said.sdDeg, { decimals: 2 })}`,
          ],
          ...(isFull
            ? ([
                ['Cp', `${index(said.index.cp)}, 95% sure of ${between(said.cp)}`],
                [
                  'Cpk',
                  `${index(said.index.cpk)}, 95% sure of ${between(said.cpk)}, at least ${index(said.cpkAtLeast)} one-sided`,
                ],
                [
                  'Expected outside',
                  `${formatPercent(said.index.outOfSpecFraction)} of first tries, if errors are normal`,
                ],
              ] as const)
            : ([
                ['Cpk', `at least ${index(said.cpkAtLeast)}, 95% sure`],
                ['Cp', `95% sure of ${between(said.cp)}`],
              ] as const)),
          [
            'Steady',
            steady
              ? 'no reading outside its natural limits, no run of eight on one side'
              : `no: ${said.outside.length} outside the natural limits, ${said.runs.length} ending a run of eight on one side. An index means little until that is explained.`,
          ],
        ]}
      />
      {!isFull && (
        <p className="muted small">
          From {capabilityInFullFrom} first tries on the index itself is said; fewer only bound it.
        </p>
      )}
    </>
  )
}
