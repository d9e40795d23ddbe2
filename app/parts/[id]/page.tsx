import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { Part3d } from '@/app/_drawing/part-3d'
import { PartDrawing } from '@/app/_drawing/part-drawing'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { Empty } from '@/app/_ui/empty'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { Facts, Section } from '@/app/_ui/section'
import { formatDateTime, formatLength, formatMass } from '@/lib/core/format'
import { readPartFiles } from '@/lib/records/file/read'
import { readOwnMaterial, readPart, readPartHistory } from '@/lib/records/part/read'
import { drawnPart, specInputOf, tubeText } from '@/lib/records/part/rules'
import { readSetup, readTooling } from '@/lib/records/setup/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { answerOf, PartSpec } from '../part-spec'
import { FileForm } from './file-form'
import { SetupForm } from './setup-form'

export const metadata: Metadata = { title: 'Part' }

export default async function PartPage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('part.read')
  const id = rowId((await params).id)
  const part = id === null ? null : await readPart(id)
  if (!part) notFound()
  const { newest } = part
  const [shop, setup, tooling, material, files, history] = await Promise.all([
    readShop(),
    readSetup(newest.id),
    readTooling(newest.id),
    readOwnMaterial(newest.materialId),
    readPartFiles(part.id),
    readPartHistory({ id: part.id, revisionIds: part.revisions.map((revision) => revision.id) }),
  ])
  const unit = shop.lengthUnit
  const drawn = drawnPart(newest)
  const input = setup ? specInputOf(newest, setup, shop, material ? { material } : {}) : null
  const answered = input ? answerOf(input) : null
  const answer = answered && 'answer' in answered ? answered.answer : null
  const mayWrite = may(actor, 'part.write')
  const place = { locale: 'en-US', timeZone: shop.timeZone }
  return (
    <>
      <PageHead
        kind={`Part ${part.number}, revision ${newest.letter}${newest.frozenAt ? ', frozen' : ''}`}
        title={part.name}
        trail={[
          { label: 'Parts', href: '/parts' },
          ...(may(actor, 'customer.read')
            ? [{ label: part.customer.name, href: `/customers/${part.customer.id}` }]
            : [{ label: part.customer.name }]),
        ]}
        actions={
          mayWrite && (
            <>
              <LinkButton href={`/parts/${part.id}/edit`}>Change</LinkButton>
              {may(actor, 'quote.write') && (
                <LinkButton kind="primary" href={`/quotes/new?customer=${part.customer.id}&part=${part.id}`}>
                  Quote it
                </LinkButton>
              )}
            </>
          )
        }
      >
        {tubeText(newest, unit)}, {newest.materialId}
        {part.customerRef && `. Customer’s reference ${part.customerRef}`}
      </PageHead>
      {newest.couldHurt && (
        <Notice kind="caution" title="A failure of this part could hurt someone">
          Local codes and a licensed engineer decide whether it may be used. This sheet says what was checked,
          no more.
        </Notice>
      )}
      <div className="split split-even">
        <PartDrawing part={drawn} units={unit} />
        <Part3d part={drawn} units={unit} />
      </div>
      <Section title="What it takes">
        <Facts
          facts={[
            [
              'Tolerances',
              `angle ±${newest.angleToleranceDeg}°, length ±${formatLength(newest.lengthToleranceMm, unit)}, else ${newest.generalTolerance}`,
            ],
            [
              'Developed length',
              answer ? formatLength(answer.developedLengthMm, unit) : 'once there is a set-up',
            ],
            [
              'Cut length',
              answer
                ? `${formatLength(answer.cutLengthMm, unit)} with grips, trim and kerf`
                : 'once there is a set-up',
            ],
            [
              'Filler',
              answer?.filler
                ? `${formatMass(answer.filler.massKg, { unit: unit === 'in' ? 'lb' : 'kg' })} of ${answer.filler.id}`
                : 'none',
            ],
            [
              'Welded afterwards',
              newest.weldedAfter ? 'yes: keep the welds out of the bend and 25 mm away' : 'no',
            ],
            ['Notes', newest.notesText || '–'],
          ]}
        />
      </Section>
      <Section title="Set-up">
        {mayWrite ? (
          <SetupForm
            revisionId={newest.id}
            setup={setup}
            tooling={tooling}
            units={{ lengthUnit: unit, currency: shop.currency }}
          />
        ) : (
          setup === null && <p>No set-up is chosen yet.</p>
        )}
      </Section>
      {input && answered ? (
        <PartSpec input={input} answered={answered} unit={unit} />
      ) : (
        <Empty title="No bend spec yet">
          Choose press, span, support and filler: the spec is computed from them.
        </Empty>
      )}
      <Section title="Drawing files" id="files">
        <ul className="ruled-list">
          {files.map((file) => (
            <li key={file.id}>
              <a href={`/files/${file.id}`}>{file.name}</a>{' '}
              <span className="muted">{Math.ceil(file.byteCount / 1024)} kB</span>
            </li>
          ))}
          {files.length === 0 && <li className="muted">No file is attached yet.</li>}
        </ul>
        {may(actor, 'file.write') && <FileForm partId={part.id} />}
      </Section>
      <Section title="History">
        <ul className="ruled-list">
          {history.map((entry) => (
            <li key={String(entry.id)}>
              {formatDateTime(entry.at.toISOString(), place)}: {entry.actorText} {entry.action}{' '}
              {entry.detailText}
            </li>
          ))}
        </ul>
      </Section>
    </>
  )
}
