import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { Bars } from '@/app/_ui/bars'
import { Button, LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { NumberField } from '@/app/_ui/field'
import { moneyText } from '@/app/_ui/money'
import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import type { SetUp } from '@/lib/core/spec/setup-finder'
import { readLearnedFactors, readOwnMaterial, readPart } from '@/lib/records/part/read'
import { lengthForField } from '@/lib/records/part/rules'
import { readSetup, readTooling } from '@/lib/records/setup/read'
import type { SetupTyped } from '@/lib/records/setup/schema'
import { readShop } from '@/lib/records/shop/read'
import { readWays } from '@/lib/records/way/read'
import { setUpsFor, typedSetUp } from '@/lib/records/way/rules'
import { may, requireActor } from '@/lib/server/session'
import { BendingOrderList } from '../../_ways/bending-order-list'
import { SetUpsFoundList } from '../../_ways/set-ups-found'
import { WayDetails } from '../../_ways/way-details'
import { WaysTable } from '../../_ways/ways-table'
import { PartHead } from '../../part-head'

type Asked = { params: Promise<{ id: string }>; searchParams: Promise<{ rev?: string; pieces?: string }> }

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('part.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  return { title: part ? `Ways of making ${part.number}` : 'Ways' }
}

const mostPieces = 100_000

export default async function WaysPage({ params, searchParams }: Asked) {
  const actor = await requireActor('part.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  if (!part) notFound()
  const { rev, pieces } = await searchParams
  const revision = rev === undefined ? part.newest : part.revisions.find(({ letter }) => letter === rev)
  if (!revision) notFound()
  const asked = Number(pieces ?? '')
  const isCount = Number.isInteger(asked) && asked >= 1 && asked <= mostPieces
  const pieceCount = isCount ? asked : Math.max(1, revision.typicalQuantity)
  const [shop, setup, tooling, ownMaterial, learned, ways] = await Promise.all([
    readShop(),
    readSetup(revision.id),
    readTooling(revision.id),
    readOwnMaterial(revision.materialId),
    readLearnedFactors(revision),
    readWays(revision.id, pieceCount),
  ])
  const unit = shop.lengthUnit
  const units = { lengthUnit: unit, currency: shop.currency }
  const showsMoney = may(actor, 'estimate.read')
  const base = `/parts/${part.id}`
  const head = (
    <PartHead part={part} revision={revision} allows={(needs) => may(actor, needs)} current="ways" />
  )
  if (!ways) {
    return (
      <>
        {head}
        <Empty
          title="No press to bend it with"
          action={
            may(actor, 'tooling.write') && (
              <LinkButton kind="primary" href="/shop/presses/new">
                Enter a press
              </LinkButton>
            )
          }
        >
          Which ways are open follows from the shop’s press, dies, straps and fillers.
        </Empty>
      </>
    )
  }
  const found = setUpsFor(revision, tooling, shop, {
    ...(ownMaterial && { material: ownMaterial }),
    learned,
  })
  const typed = (setUp: SetUp): SetupTyped =>
    typedSetUp(setUp, tooling, { revisionId: revision.id, version: setup?.version ?? 0, units })
  const chosen: SetupTyped | null = setup && {
    revisionId: String(revision.id),
    version: setup.version,
    support: setup.support,
    pressId: String(setup.pressId),
    supportSpanMm: lengthForField(setup.supportSpanMm, unit),
    dieId: setup.dieId === null ? '' : String(setup.dieId),
    strapId: setup.strapId === null ? '' : String(setup.strapId),
    fillerId: setup.fillerId === null ? '' : String(setup.fillerId),
  }
  const best = found?.setUps[0]
  const costed = ways.rows.flatMap(({ answer, estimate }) => (estimate ? [{ answer, estimate }] : []))
  const possible = ways.rows.filter(({ answer }) => answer.word === 'yes').length
  return (
    <>
      {head}
      <div className="stack stack-loose">
        {!ways.ground.isSetupSaved && (
          <Notice title="No set-up is chosen yet">
            What stands here is worked out on {ways.ground.setup ? 'the strongest press' : 'a press'} with a
            middling span. Take one of the set-ups below, or choose on the part’s own screen.
          </Notice>
        )}
        <Section
          title="Ways of making it"
          aside={
            <form method="get" className="row" action={`${base}/ways`}>
              {rev !== undefined && <input type="hidden" name="rev" value={rev} />}
              <NumberField
                label="For how many pieces"
                name="pieces"
                inputMode="numeric"
                defaultValue={String(pieceCount)}
                error={
                  pieces !== undefined && !isCount
                    ? `Type a whole number from 1 to ${mostPieces}; shown for ${pieceCount}`
                    : undefined
                }
              />
              <Button type="submit">Work it out</Button>
            </form>
          }
        >
          <p className="muted">
            {possible === 0 ? 'None is a clear yes' : `${possible} of ${ways.rows.length} are a clear yes`}.
            {showsMoney
              ? ' Hours, cost and days are for the whole order at today’s rates;'
              : ' Hours are for the order;'}{' '}
            {showsMoney &&
              'the cost a piece is its mean, and from the tenth to the ninetieth of a hundred such orders.'}
          </p>
          <WaysTable
            rows={ways.rows}
            unit={shop.lengthUnit}
            currency={shop.currency}
            showsMoney={showsMoney}
          />
          {showsMoney && costed.length > 0 && (
            <Bars
              label={`Cost a piece of ${pieceCount}, with its spread`}
              bars={costed.map(({ answer, estimate }) => ({
                key: answer.way,
                label: answer.name,
                href: `#way-${answer.way}`,
                expected: estimate.costPerPieceCents.mean,
                low: estimate.costPerPieceCents.p10,
                high: estimate.costPerPieceCents.p90,
                text: moneyText(Math.round(estimate.costPerPieceCents.mean), shop.currency),
                note: answer.word === 'no' ? 'can’t be done here' : undefined,
              }))}
            />
          )}
          {may(actor, 'decision.write') && (
            <div className="row">
              <LinkButton kind="primary" href={`${base}/decision?pieces=${pieceCount}`}>
                Weigh and decide
              </LinkButton>
              <LinkButton href={`${base}/asks#ask`}>Ask outside for prices</LinkButton>
            </div>
          )}
        </Section>
        {found && (
          <Section title="Set-ups from the shop’s own tools" id="set-ups">
            <SetUpsFoundList
              found={found}
              tooling={tooling}
              unit={unit}
              typed={typed}
              chosen={chosen}
              mayWrite={may(actor, 'part.write')}
            />
          </Section>
        )}
        {best && revision.bends.length > 1 && (
          <Section title="Bending order on the best set-up" id="order">
            <BendingOrderList order={best.order} unit={unit} />
          </Section>
        )}
        {ways.rows.map(({ answer }) => (
          <WayDetails
            key={answer.way}
            answer={answer}
            learned={learned}
            unit={unit}
            estimateHref={showsMoney && answer.word !== 'no' ? `${base}/estimate?way=${answer.way}` : null}
            asksHref={may(actor, 'ask.write') ? `${base}/asks` : null}
          />
        ))}
      </div>
    </>
  )
}
