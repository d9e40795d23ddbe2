import Link from 'next/link'
import { LinkButton } from '@/app/_ui/button'
import { formatDate, formatLength } from '@/lib/core/format'
import { dispositionNotes } from '@/lib/core/inspection/disposition'
import type { LengthUnit } from '@/lib/core/units'
import type { ReadFault } from '@/lib/records/fault/read'
import { TryLine } from '../try-line'

type Shop = { lengthUnit: LengthUnit; timeZone: string }

/** What came of the decision: new tries, the replacement and its tube, the release; or what is still to be done. */
export function WhatFollowed({ fault, shop }: { fault: ReadFault; shop: Shop }) {
  const { disposition, piece, job } = fault
  if (!disposition) return null
  const note = dispositionNotes[disposition]
  return (
    <div className="stack">
      <p className="muted">
        {note.name}: {note.meaning.toLowerCase()}. Then: {note.then}.
      </p>
      {note.measureAgain && piece && <LaterTries fault={fault} piece={piece} shop={shop} />}
      {disposition === 'scrap' && piece && <Replacement fault={fault} piece={piece} shop={shop} />}
      {piece?.releases.map(({ release }) => (
        <p key={release.id}>
          Piece {piece.number} was released with{' '}
          <Link href={`/releases/${release.id}`}>{release.number}</Link>,{' '}
          {formatDate(release.at.toISOString(), { locale: 'en-US', timeZone: shop.timeZone })}.
        </p>
      ))}
      {disposition === 'concession' && piece && piece.releases.length === 0 && (
        <p>
          Not released yet: <Link href={`/jobs/${job.id}#pieces`}>pieces of {job.number}</Link>.
        </p>
      )}
    </div>
  )
}

type Piece = NonNullable<ReadFault['piece']>

function LaterTries({ fault, piece, shop }: { fault: ReadFault; piece: Piece; shop: Shop }) {
  const { bendRecord, decidedAt, job } = fault
  const later = piece.bendRecords.filter((one) =>
    bendRecord
      ? one.bendPosition === bendRecord.bendPosition && one.tryNumber > bendRecord.tryNumber
      : decidedAt !== null && one.at > decidedAt,
  )
  const bench = `/bench/${piece.scanCode}${bendRecord ? `?bend=${bendRecord.bendPosition}` : ''}`
  if (later.length === 0) {
    return (
      <p className="row">
        {bendRecord ? 'No new try yet.' : 'Nothing was measured on it since.'}
        {piece.status === 'open' && <LinkButton href={bench}>To the bench</LinkButton>}
      </p>
    )
  }
  return (
    <ul className="ruled-list">
      {later.map((record) => (
        <li key={record.id}>
          <TryLine
            record={record}
            pieceNumber={piece.number}
            wantedDeg={job.revision.bends[record.bendPosition - 1]?.angleDeg ?? 0}
            shop={shop}
          />
        </li>
      ))}
    </ul>
  )
}

function Replacement({ fault, piece, shop }: { fault: ReadFault; piece: Piece; shop: Shop }) {
  const { taken, job } = fault
  const heat = (lot: { id: number; number: string; heatNumber: string }) => (
    <Link href={`/stock/${lot.id}`}>
      lot {lot.number}, heat {lot.heatNumber || 'not noted'}
    </Link>
  )
  if (piece.replacements.length === 0) return <p>No replacement was started: the job had ended.</p>
  return (
    <ul className="ruled-list">
      {piece.replacements.map((one) => (
        <li key={one.id}>
          <Link href={`/bench/${one.scanCode}`}>Piece {one.number}</Link> replaces it, {one.status}.{' '}
          {one.stockPiece ? <>Cut from {heat(one.stockPiece.lot)}.</> : 'Not cut yet.'}
        </li>
      ))}
      <li>
        {taken ? (
          <>
            {taken.isOffcut ? 'Offcut' : 'Bar'} {taken.id}, {formatLength(taken.lengthMm, shop.lengthUnit)},{' '}
            {heat(taken.lot)} was reserved for it{taken.usedAt && ', and is cut up by now'}.
          </>
        ) : (
          <>
            No tube was reserved with the decision:{' '}
            <Link href={`/jobs/${job.id}#stock`}>stock of the job</Link>.
          </>
        )}
      </li>
    </ul>
  )
}
