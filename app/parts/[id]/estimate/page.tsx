import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import { wayNames } from '@/lib/core/cost/ways'
import { groundMark, planTubes, readEstimateGround, readEstimates } from '@/lib/records/estimate/read'
import {
  carriedAsk,
  type EstimateAsk,
  type EstimateGround,
  firstAsk,
  usualBarMm,
} from '@/lib/records/estimate/rules'
import { ageWords, estimateAge } from '@/lib/records/estimate-age/rules'
import { readPart } from '@/lib/records/part/read'
import { readShop } from '@/lib/records/shop/read'
import { wayBases } from '@/lib/records/way/rules'
import { may, requireActor } from '@/lib/server/session'
import '../../../stock/nest/nest.css'
import { EstimateBoard } from '../../_estimate/estimate-board'
import { typedEstimate } from '../../_estimate/typed-estimate'
import { VersionList } from '../../_estimate/version-list'
import { PartHead } from '../../part-head'

type Asked = { params: Promise<{ id: string }>; searchParams: Promise<{ rev?: string; way?: string }> }

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('estimate.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  return { title: part ? `Estimate of ${part.number}` : 'Estimate' }
}

export default async function EstimatePage({ params, searchParams }: Asked) {
  const actor = await requireActor('estimate.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  if (!part) notFound()
  const { rev, way } = await searchParams
  const revision = rev === undefined ? part.newest : part.revisions.find(({ letter }) => letter === rev)
  if (!revision) notFound()
  const [shop, read, versions] = await Promise.all([
    readShop(),
    readEstimateGround(revision.id),
    readEstimates(revision.id),
  ])
  if (!read) notFound()
  const { ground } = read
  const bases = wayBases(ground)
  const newest = versions[0]
  const asked = bases.find((basis) => basis.way === way && basis.part)?.way
  const first = firstAsk(ground, bases)
  const kept = newest && bases.some((basis) => basis.way === newest.inputs.ask.way && basis.part)
  const begun: EstimateAsk | null = kept ? carriedAsk(newest.inputs, ground) : first
  const startAsk = begun && asked ? { ...begun, way: asked } : begun
  const basis = bases.find((one) => one.way === startAsk?.way)
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const mark = groundMark(ground)
  const age = newest ? ageWords(estimateAge(newest.inputs.ground, ground)) : ''
  return (
    <>
      <PartHead part={part} revision={revision} allows={(needs) => may(actor, needs)} current="estimate" />
      <div className="stack stack-loose">
        {newest && age && (
          <Notice title={`Version ${newest.number} is older than what it was made from`}>
            {age} What stands below is worked out from today’s records: save it as a new version to keep it.
          </Notice>
        )}
        {startAsk && basis ? (
          <EstimateBoard
            ground={{
              bases,
              rates: ground.rates,
              kerfMm: ground.shop.kerfMm,
              yieldRecord: ground.yieldRecord,
              learned: ground.learned,
              units,
              startCut: ground.revision.startCut.kind,
              endCut: ground.revision.endCut.kind,
              mark,
              ratesOn: ground.ratesOn,
              timeZone: shop.timeZone,
              pot: ground.tools.pot,
              rackNames: rackNames(ground),
            }}
            start={typedEstimate(startAsk, {
              revisionId: revision.id,
              mark,
              units,
              toolKeys: bases.flatMap((one) => one.toolsToMake.map(({ key }) => key)),
              usualBarMm: usualBarMm(basis, shop.lengthUnit, ground.rates.endTrimMm),
            })}
            startAsk={startAsk}
            startPlans={await planTubes(ground, basis, startAsk)}
            mayWrite={may(actor, 'estimate.write')}
          />
        ) : (
          <NothingToCost ground={ground} bases={bases} partId={part.id} />
        )}
        <Section title="Versions kept" id="versions">
          <VersionList versions={versions} currency={shop.currency} timeZone={shop.timeZone} />
        </Section>
      </div>
    </>
  )
}

function rackNames(ground: EstimateGround): Record<string, string> {
  return Object.fromEntries(ground.tubes.flatMap(({ bars }) => bars.map(({ key, name }) => [key, name])))
}

function NothingToCost({
  ground,
  bases,
  partId,
}: {
  ground: EstimateGround
  bases: ReturnType<typeof wayBases>
  partId: number
}) {
  return (
    <Empty
      title={ground.setup ? 'No way of making it here can be costed' : 'No press to make it with'}
      action={
        ground.setup ? (
          <LinkButton href={`/parts/${partId}#set-up`}>To the set-up</LinkButton>
        ) : (
          <LinkButton href="/shop/presses/new">Enter a press</LinkButton>
        )
      }
    >
      {bases.length > 0
        ? bases.map(({ way, because }) => `${wayNames[way]}: ${because}`).join('. ')
        : 'Hours and filler follow from the bend spec, and that from the shop’s press.'}
    </Empty>
  )
}
