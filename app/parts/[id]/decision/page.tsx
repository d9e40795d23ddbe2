import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { Button, LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { DateField, NumberField } from '@/app/_ui/field'
import { moneyText } from '@/app/_ui/money'
import { Section } from '@/app/_ui/section'
import { readDecisions, readWeighing } from '@/lib/records/decision/read'
import { changedSince, costMoves, markText } from '@/lib/records/decision/rules'
import { weighQuestion } from '@/lib/records/decision/schema'
import { readPart } from '@/lib/records/part/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { DecideForm } from '../../_decision/decide-form'
import { DecisionList } from '../../_decision/decision-list'
import { WeighedView } from '../../_decision/weighed-view'
import { PartHead } from '../../part-head'

type Params = { rev?: string; pieces?: string; due?: string }
type Asked = { params: Promise<{ id: string }>; searchParams: Promise<Params> }

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('decision.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  return { title: part ? `Decision on ${part.number}` : 'Decision' }
}

export default async function DecisionPage({ params, searchParams }: Asked) {
  const actor = await requireActor('decision.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  if (!part) notFound()
  const asked = await searchParams
  const revision =
    asked.rev === undefined ? part.newest : part.revisions.find(({ letter }) => letter === asked.rev)
  if (!revision) notFound()
  const [shop, decisions] = await Promise.all([readShop(), readDecisions(revision.id)])
  const newest = decisions[0]
  const typed = {
    pieces: String(asked.pieces ?? newest?.quantity ?? Math.max(1, revision.typicalQuantity)),
    due: String(asked.due ?? newest?.weighed.dueOn ?? ''),
  }
  const parsed = weighQuestion.safeParse(typed)
  const message = (field: 'pieces' | 'due') =>
    parsed.error?.issues.find(({ path }) => path[0] === field)?.message
  const question = parsed.success
    ? { pieceCount: parsed.data.pieces, dueOn: parsed.data.due }
    : { pieceCount: Math.max(1, revision.typicalQuantity), dueOn: null }
  const read = await readWeighing(revision.id, question)
  const again = newest && (await weighedAgain(revision.id, newest, question, read))
  const base = `/parts/${part.id}`
  const shown = { currency: shop.currency, unit: shop.lengthUnit, timeZone: shop.timeZone }
  const money = (cents: number) => moneyText(Math.round(cents), shop.currency)
  return (
    <>
      <PartHead part={part} revision={revision} allows={(needs) => may(actor, needs)} current="decision" />
      <div className="stack stack-loose">
        <Section title="Make it or have it made">
          <form method="get" className="row" action={`${base}/decision`}>
            {asked.rev !== undefined && <input type="hidden" name="rev" value={asked.rev} />}
            <NumberField
              label="Pieces"
              name="pieces"
              inputMode="numeric"
              defaultValue={typed.pieces}
              error={message('pieces')}
            />
            <DateField label="Due" optional name="due" defaultValue={typed.due} error={message('due')} />
            <Button type="submit">Weigh again</Button>
            <span className="muted small">With a due day, each says how likely it is in time</span>
          </form>
          {read && read.weighed.rows.length > 0 ? (
            <WeighedView weighed={read.weighed} {...shown} />
          ) : (
            <Empty
              title={read ? 'Nothing can be weighed yet' : 'No press to make it with'}
              action={
                <LinkButton href={read ? `${base}/ways` : '/shop/presses/new'}>
                  {read ? 'See what stands in the way' : 'Enter a press'}
                </LinkButton>
              }
            >
              A way that can be done here, or an answer from outside, is what there is to choose from.
            </Empty>
          )}
        </Section>
        {read && read.weighed.rows.length > 0 && may(actor, 'decision.write') && (
          <Section title="Decide" id="decide">
            <DecideForm
              key={`${question.pieceCount} ${typed.due} ${read.marks.all}`}
              start={{
                revisionId: String(revision.id),
                pieceCount: String(question.pieceCount),
                dueOn: parsed.success ? typed.due : '',
                chosen: '',
                whyText: '',
                mark: markText(read.marks),
              }}
              choices={read.weighed.rows.map((row) => ({
                key: row.key,
                label: row.name,
                note: `${money(row.costPerPieceCents.mean)} a piece, ${row.words.join(', ')}`,
              }))}
            />
          </Section>
        )}
        <Section title="Decided so far" id="decided">
          <DecisionList
            decisions={decisions}
            changed={again ? changedSince(newest, again.marks, again.weighed) : []}
            moves={again ? costMoves(newest.weighed, again.weighed) : []}
            {...shown}
          />
        </Section>
      </div>
    </>
  )
}

type Question = { pieceCount: number; dueOn: Date | null }
type Weighing = Awaited<ReturnType<typeof readWeighing>>

/** What was decided, weighed from today's records: at its own number of pieces, whatever else is being looked at. */
async function weighedAgain(
  revisionId: number,
  made: { quantity: number; weighed: { dueOn: string | null } },
  shown: Question,
  read: Weighing,
): Promise<Weighing> {
  if (made.quantity === shown.pieceCount) return read
  const { dueOn } = made.weighed
  return readWeighing(revisionId, { pieceCount: made.quantity, dueOn: dueOn ? new Date(dueOn) : null })
}
