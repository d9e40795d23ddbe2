import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { Notice } from '@/app/_ui/notice'
import { Facts, Section } from '@/app/_ui/section'
import { formatAngle, formatDateTime, formatLength, formatPercent } from '@/lib/core/format'
import { readPartFiles } from '@/lib/records/file/read'
import {
  readLearnedFactors,
  readMaterialChoices,
  readOwnMaterial,
  readPart,
  readPartHistory,
} from '@/lib/records/part/read'
import { cutWords, lengthForField, type RevisionFacts, tubeText } from '@/lib/records/part/rules'
import { readSetup, readTooling } from '@/lib/records/setup/read'
import { firstSetup } from '@/lib/records/setup/rules'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { PutAway } from '../../customers/put-away'
import { PartBoard } from '../_spec/part-board'
import { archivePartAction, restorePartAction } from '../actions'
import { PartFiles } from '../part-files'
import { PartHead } from '../part-head'
import { RevisionList } from '../revision-list'

type Asked = { params: Promise<{ id: string }>; searchParams: Promise<{ rev?: string }> }

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('part.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  return { title: part ? `${part.number} ${part.name}` : 'Part' }
}

const idText = (id: number | null) => (id === null ? '' : String(id))

export default async function PartPage({ params, searchParams }: Asked) {
  const actor = await requireActor('part.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  if (!part) notFound()
  const { rev } = await searchParams
  const revision = rev === undefined ? part.newest : part.revisions.find(({ letter }) => letter === rev)
  if (!revision) notFound()
  const [shop, setup, tooling, files, history, materials, ownMaterial, learned] = await Promise.all([
    readShop(),
    readSetup(revision.id),
    readTooling(revision.id),
    readPartFiles(part.id),
    readPartHistory({ id: part.id, revisionIds: part.revisions.map((one) => one.id) }),
    readMaterialChoices(),
    readOwnMaterial(revision.materialId),
    readLearnedFactors(revision),
  ])
  const unit = shop.lengthUnit
  const moment = (at: Date) => formatDateTime(at.toISOString(), { locale: 'en-US', timeZone: shop.timeZone })
  const isNewest = revision.id === part.newest.id
  const mayWrite = may(actor, 'part.write')
  const chosen =
    setup ??
    firstSetup(
      tooling,
      {
        heightMm: revision.heightMm,
        centrelineRadiusMm: Math.max(...revision.bends.map((bend) => bend.centrelineRadiusMm)),
      },
      unit,
    )
  const facts = (
    <Section title="As drawn">
      <DrawnFacts
        revision={revision}
        unit={unit}
        materialName={materials.find((material) => material.id === revision.materialId)?.name}
      />
    </Section>
  )
  return (
    <>
      <PartHead part={part} revision={revision} allows={(needs) => may(actor, needs)} current="drawing" />
      <div className="stack stack-loose">
        {part.archivedAt && (
          <Notice title="Put away">It no longer stands in lists. Everything is kept.</Notice>
        )}
        {!isNewest && (
          <Notice
            title={`Revision ${revision.letter} is not the newest`}
            actions={<LinkButton href={`/parts/${part.id}`}>Show revision {part.newest.letter}</LinkButton>}
          />
        )}
        {revision.couldHurt && (
          <Notice kind="caution" title="A failure of this part could hurt somebody">
            Local codes and a licensed engineer decide whether it may be used. This screen says only what was
            calculated.
          </Notice>
        )}
        {chosen ? (
          <PartBoard
            key={`${revision.id} ${revision.version}`}
            ground={{
              revision,
              tooling,
              units: { lengthUnit: unit, currency: shop.currency },
              shop: {
                pressUseFraction: shop.pressUseFraction,
                trimMm: shop.trimMm,
                kerfMm: shop.kerfMm,
              },
              ownMaterial,
              learned,
            }}
            start={{
              revisionId: String(revision.id),
              version: setup?.version ?? 0,
              support: chosen.support,
              pressId: String(chosen.pressId),
              supportSpanMm: lengthForField(chosen.supportSpanMm, unit),
              dieId: idText(chosen.dieId),
              strapId: idText(chosen.strapId),
              fillerId: idText(chosen.fillerId),
            }}
            isSaved={setup !== null}
            mayWrite={mayWrite}
            facts={facts}
          />
        ) : (
          <>
            {facts}
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
              The bend spec is computed from the shop’s press, die, strap and filler.
            </Empty>
          </>
        )}
        {setup && (
          <p>
            <a href={`/parts/${part.id}/numbers.pdf?rev=${revision.letter}`}>
              Where every number of the kept set-up’s bend spec comes from, as a PDF
            </a>
          </p>
        )}
        <Section title="Drawing files" id="files">
          <PartFiles
            partId={part.id}
            files={files.map(({ id: fileId, name, mediaType, byteCount, createdAt, createdBy }) => ({
              id: fileId,
              name,
              mediaType,
              byteCount,
              cameText: `${moment(createdAt)}${createdBy ? `, ${createdBy.name}` : ''}`,
            }))}
            mayWrite={may(actor, 'file.write')}
          />
        </Section>
        <Section title="Revisions" id="revisions">
          <RevisionList
            partId={part.id}
            revisions={part.revisions}
            shownId={revision.id}
            unit={unit}
            moment={moment}
          />
        </Section>
        <Section title="History" id="history">
          <ul className="ruled-list">
            {history.map((entry) => (
              <li key={String(entry.id)}>
                <span className="muted small">{moment(entry.at)}</span> {entry.actorText} {entry.action}
                {entry.detailText && `: ${entry.detailText}`}
              </li>
            ))}
          </ul>
        </Section>
        {mayWrite && (
          <PutAway
            what="part"
            record={{ id: part.id, version: part.version }}
            archived={part.archivedAt !== null}
            archive={archivePartAction}
            restore={restorePartAction}
          />
        )}
      </div>
    </>
  )
}

function DrawnFacts({
  revision,
  unit,
  materialName,
}: {
  revision: RevisionFacts
  unit: 'in' | 'mm'
  materialName: string | undefined
}) {
  const length = (mm: number) => formatLength(mm, unit)
  const section = revision.sectionToleranceFraction
  return (
    <Facts
      facts={[
        ['Tube', tubeText(revision, unit)],
        ['Material', materialName ?? revision.materialId],
        [
          'Ends',
          `datum end ${cutWords(revision.startCut, unit)}; far end ${cutWords(revision.endCut, unit)}`,
        ],
        [
          'Tolerances',
          [
            `angles ±${formatAngle(revision.angleToleranceDeg)}`,
            `lengths ±${length(revision.lengthToleranceMm)}`,
            revision.radiusToleranceMm === null ? '' : `radii ±${length(revision.radiusToleranceMm)}`,
            section === null ? '' : `flattening up to ${formatPercent(section)} of the height`,
            `else ${revision.generalTolerance}`,
          ]
            .filter(Boolean)
            .join(', '),
        ],
        ['Welded afterwards', revision.weldedAfter ? 'yes' : 'no'],
        ['Usual quantity', String(revision.typicalQuantity)],
        [
          'Holes, notes',
          <span key="notes" className="typed-lines">
            {revision.notesText || '–'}
          </span>,
        ],
      ]}
    />
  )
}
