import Link from 'next/link'
import { DataTable } from '@/app/_ui/data-table'
import { FoldSection } from '@/app/_ui/fold'
import { Facts } from '@/app/_ui/section'
import { formatPercent } from '@/lib/core/format'
import { jobFiller } from '@/lib/records/filler-use/rules'
import type { JobPlan } from '@/lib/records/job/rules'
import { moveWords } from '@/lib/records/tooling/rules'
import { FillerForm } from './filler-form'
import { type JobView, wordsOf } from './job-view'

/** What the job took from the pots and gave back, and what is still out. */
export function FillerSection({ view }: { view: JobView }) {
  const { job, shop, allows, fillers } = view
  const { mass, moment } = wordsOf(view)
  const plan = job.plan as unknown as JobPlan
  const perPieceKg = plan.spec?.filler?.massKg
  const isUsed = job.fillerEntries.length > 0
  if (!isUsed && perPieceKg === undefined) return null
  const pots = [...new Map(job.fillerEntries.map(({ filler }) => [filler.id, filler])).values()]
  const whole = jobFiller(job.fillerEntries)
  const mayEnter = job.status === 'open' && allows('filler.write')
  const planned = fillers.find(({ shopNumber }) => shopNumber === plan.setUp?.filler?.shopNumber)
  return (
    <FoldSection
      title="Filler"
      id="filler"
      summary={
        isUsed ? `${mass(whole.pouredKg)} poured, ${mass(whole.recoveredKg)} recovered` : 'nothing poured yet'
      }
      open={view.openId === 'filler'}
    >
      {perPieceKg !== undefined && (
        <p className="muted">
          The plan fills a piece with {mass(perPieceKg)}
          {plan.setUp?.filler && ` from ${plan.setUp.filler.shopNumber}, ${plan.setUp.filler.name}`}.
        </p>
      )}
      {pots.map((pot) => {
        const moved = jobFiller(job.fillerEntries.filter(({ filler }) => filler.id === pot.id))
        return (
          <Facts
            key={pot.id}
            facts={[
              [
                'Pot',
                <Link key="pot" href={`/shop/fillers/${pot.id}`}>
                  {pot.shopNumber}, {pot.name}
                </Link>,
              ],
              ['Poured', mass(moved.pouredKg)],
              ['Recovered', mass(moved.recoveredKg)],
              [
                job.status === 'open' ? 'Not back yet' : 'Lost in the tubes',
                moved.outFraction === null
                  ? mass(moved.outKg)
                  : `${mass(moved.outKg)}, ${formatPercent(moved.outFraction)} of what was poured`,
              ],
              ['Skimmed or spilt beside', mass(moved.spiltKg)],
            ]}
          />
        )
      })}
      {isUsed && (
        <DataTable
          caption="Moves of filler on this job"
          captionHidden
          rows={job.fillerEntries}
          rowKey={(entry) => String(entry.id)}
          columns={[
            { key: 'at', head: 'When', title: true, cell: (entry) => moment(entry.at) },
            { key: 'kind', head: 'Move', cell: (entry) => moveWords[entry.kind].label },
            { key: 'mass', head: 'Mass', cell: (entry) => mass(Math.abs(entry.massKg)) },
            { key: 'pot', head: 'Pot', cell: (entry) => entry.filler.shopNumber },
            { key: 'by', head: 'By', cell: (entry) => entry.by?.name ?? '–' },
            { key: 'note', head: 'Note', cell: (entry) => entry.noteText || '–' },
          ]}
        />
      )}
      {mayEnter && fillers.length > 0 && (
        <FillerForm
          jobId={job.id}
          fillers={fillers.map((pot) => ({
            value: String(pot.id),
            label: `${pot.shopNumber}, holds ${mass(Math.max(0, pot.balance.inPotKg))}`,
          }))}
          chosenId={String((planned ?? fillers[0])?.id ?? '')}
          units={{ lengthUnit: shop.lengthUnit, currency: shop.currency }}
        />
      )}
    </FoldSection>
  )
}
