import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { PageHead } from '@/app/_ui/page-head'
import { SearchBox } from '@/app/_ui/search-box'
import { JobsNav } from '@/app/jobs/jobs-nav'
import { formatDate } from '@/lib/core/format'
import { readShop } from '@/lib/records/shop/read'
import { readHeat, readHeats, readPieceTrace } from '@/lib/records/trace/read'
import { may, requireActor } from '@/lib/server/session'
import { HeatForward } from './heat-forward'
import { PieceBack } from './piece-back'

export const metadata: Metadata = { title: 'Trace' }

/** From a piece back to its heat, filler, set-up, hand and gauge; from a heat forward to every piece made of it. */
export default async function TracePage({
  searchParams,
}: {
  searchParams: Promise<{ heat?: string; piece?: string; q?: string }>
}) {
  const actor = await requireActor('job.read')
  const asked = await searchParams
  const shop = await readShop()
  const sees = { customers: may(actor, 'customer.read') }
  if (asked.piece !== undefined) {
    const id = rowId(String(asked.piece))
    const piece = id === null ? null : await readPieceTrace(id)
    if (!piece) notFound()
    return <PieceBack piece={piece} shop={shop} sees={sees} />
  }
  const heat = String(asked.heat ?? '')
    .trim()
    .slice(0, 100)
  if (heat !== '') {
    const found = await readHeat(heat)
    return <HeatForward heat={heat} found={found} shop={shop} sees={sees} />
  }
  const search = String(asked.q ?? '')
    .trim()
    .slice(0, 100)
  const heats = await readHeats(search)
  return (
    <>
      <PageHead title="Trace">
        From a heat number forward to every piece made of it. From a piece back: open its job and press trace.
      </PageHead>
      <JobsNav current="/trace" />
      <SearchBox label="Find a heat number" action="/trace" defaultValue={search} />
      <ul className="ruled-list">
        {heats.map((one) => (
          <li key={one.heatNumber}>
            <Link className="mono" href={`/trace?heat=${encodeURIComponent(one.heatNumber)}`}>
              {one.heatNumber}
            </Link>
            , {one._count._all} {one._count._all === 1 ? 'lot' : 'lots'}
            {one._max.receivedOn &&
              `, received ${formatDate(one._max.receivedOn.toISOString().slice(0, 10), { locale: 'en-US', timeZone: shop.timeZone })}`}
          </li>
        ))}
        {heats.length === 0 && (
          <li className="muted">
            {search ? `No heat number has “${search}” in it.` : 'No lot with a heat number is kept yet.'}
          </li>
        )}
      </ul>
    </>
  )
}
