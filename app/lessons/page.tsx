import type { Metadata } from 'next'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { JobsNav } from '@/app/jobs/jobs-nav'
import { formatDuration, formatNumber, formatPercent } from '@/lib/core/format'
import { yieldBelief } from '@/lib/core/statistics/yield-belief'
import { readClockedOperations, readFactorMoves, readFactors, readLessons } from '@/lib/records/lesson/read'
import { byTube, lessonGroups, sectionWords } from '@/lib/records/lesson/rules'
import { readRates } from '@/lib/records/rates/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { LessonGroups } from './lesson-groups'
import { operationRows } from './operation-rows'

export const metadata: Metadata = { title: 'Lessons' }

const factorText = (value: number) => formatNumber(value, { decimals: 3, keepZeros: true })

/** What finished work taught the numbers: what waits for the owner, and what is planned with. */
export default async function LessonsPage() {
  const actor = await requireActor('lesson.read')
  const [{ lessons, mostLessons, hasOlder }, { rates }, shop] = await Promise.all([
    readLessons(),
    readRates(),
    readShop(),
  ])
  const groups = lessonGroups(lessons)
  const open = groups.filter(({ state }) => state === 'open')
  const decided = groups.filter(({ state }) => state !== 'open').reverse()
  const tubes = byTube(lessons, 'springbackFactor')
  const yields = byTube(lessons, 'firstTry')
  const jobIds = [
    ...new Set(groups.filter(({ kind }) => kind === 'operationMinutes').map(({ job }) => job.id)),
  ]
  const [factors, moves, clocked] = await Promise.all([
    readFactors(tubes),
    readFactorMoves(open.filter(({ kind }) => kind === 'springbackFactor')),
    readClockedOperations(jobIds),
  ])
  const operations = operationRows(groups, clocked, rates.learning)
  const mayDecide = may(actor, 'lesson.accept')
  return (
    <>
      <PageHead title="Lessons">
        What finished jobs taught the numbers. Only what the owner accepts is planned and estimated with.
      </PageHead>
      <JobsNav current="/lessons" />
      <div className="stack stack-loose">
        {hasOlder && (
          <p className="muted">The newest {formatNumber(mostLessons, { decimals: 0 })} lessons are shown.</p>
        )}
        <Section title="Waiting for a decision" id="open">
          {open.length === 0 ? (
            <p className="muted">Nothing waits. A job draws its lessons when it is closed.</p>
          ) : (
            <LessonGroups
              groups={open}
              operations={operations}
              moves={moves}
              yieldNow={rates.firstPassYieldFraction}
              lengthUnit={shop.lengthUnit}
              mayDecide={mayDecide}
            />
          )}
        </Section>
        <Section title="Springback factor" id="springback">
          <p className="muted prose">
            Measured springback over the model’s. It starts at 1.000 ± 0.150 and moves with every bend that is
            accepted; a section not bent yet starts from its material’s other bends.
          </p>
          <DataTable
            caption="Springback factor by material, section and method"
            captionHidden
            rows={tubes.map((tube, index) => ({ ...tube, learned: factors[index] }))}
            rowKey={(tube) => `${tube.materialId} ${tube.sectionText} ${tube.method}`}
            empty={<p className="muted">No bend is accepted yet: plans use the model alone.</p>}
            columns={[
              { key: 'material', head: 'Material', title: true, cell: (tube) => tube.materialId },
              {
                key: 'section',
                head: 'Section',
                cell: (tube) => sectionWords(tube.sectionText, shop.lengthUnit),
              },
              { key: 'method', head: 'Method', cell: (tube) => tube.method },
              {
                key: 'bends',
                head: 'Bends behind it',
                numeric: true,
                cell: (tube) => String(tube.values.length),
              },
              {
                key: 'factor',
                head: 'Planned with',
                cell: (tube) =>
                  tube.learned ? `${factorText(tube.learned.mean)} ± ${factorText(tube.learned.sd)}` : '–',
              },
            ]}
          />
        </Section>
        <Section title="First tries" id="first-tries">
          <DataTable
            caption="Bends that were good at the first try"
            captionHidden
            rows={yields.map((tube) => {
              const good = tube.values.filter((value) => value === 1).length
              return { ...tube, belief: yieldBelief(good, tube.values.length - good) }
            })}
            rowKey={(tube) => `${tube.materialId} ${tube.sectionText} ${tube.method}`}
            empty={<p className="muted">No first try is accepted yet.</p>}
            columns={[
              { key: 'material', head: 'Material', title: true, cell: (tube) => tube.materialId },
              {
                key: 'section',
                head: 'Section',
                cell: (tube) => sectionWords(tube.sectionText, shop.lengthUnit),
              },
              { key: 'method', head: 'Method', cell: (tube) => tube.method },
              { key: 'good', head: 'Good', cell: (tube) => tube.belief.text },
              {
                key: 'yield',
                head: 'Yield to expect',
                cell: (tube) =>
                  `${formatPercent(tube.belief.meanFraction)}, 80% sure of ${formatPercent(tube.belief.p10Fraction)} to ${formatPercent(tube.belief.p90Fraction)}`,
              },
            ]}
          />
        </Section>
        <Section title="Minutes of the operations" id="minutes">
          <DataTable
            caption="Logged minutes against planned, by operation"
            captionHidden
            rows={operations.filter(({ state }) => state === 'accepted')}
            rowKey={(row) => `${row.jobId} ${row.key}`}
            empty={<p className="muted">No clocked operation is accepted yet.</p>}
            columns={[
              { key: 'name', head: 'Operation', title: true, cell: (row) => row.name },
              { key: 'job', head: 'Job', cell: (row) => row.jobNumber },
              { key: 'planned', head: 'Planned', cell: (row) => formatDuration(row.plannedMinutes) },
              { key: 'logged', head: 'Logged', cell: (row) => formatDuration(row.loggedMinutes) },
            ]}
          />
        </Section>
        {decided.length > 0 && (
          <Section title="Decided" id="decided">
            <LessonGroups
              groups={decided}
              operations={operations}
              yieldNow={rates.firstPassYieldFraction}
              lengthUnit={shop.lengthUnit}
              mayDecide={mayDecide}
            />
          </Section>
        )}
      </div>
    </>
  )
}
