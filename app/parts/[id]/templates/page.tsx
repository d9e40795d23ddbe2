import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import { formatLength } from '@/lib/core/format'
import { readSentence } from '@/lib/core/sentence'
import { boundsOf } from '@/lib/core/templates/primitive'
import { readPart } from '@/lib/records/part/read'
import { readShop } from '@/lib/records/shop/read'
import { readSpecInput } from '@/lib/records/spec/read'
import { may, requireActor } from '@/lib/server/session'
import { PartHead } from '../../part-head'
import { partTemplates } from '../../part-templates'
import { TemplatePreview } from '../../template-preview'
import '../../templates.css'

type Asked = { params: Promise<{ id: string }>; searchParams: Promise<{ rev?: string }> }

export const metadata: Metadata = { title: 'True-size templates' }

/** Every true-size drawing of a part, to print, cut out and work by. */
export default async function TemplatesPage({ params, searchParams }: Asked) {
  const actor = await requireActor('part.read')
  const id = rowId((await params).id)
  const [shop, part] = await Promise.all([readShop(), id === null ? null : readPart(id)])
  const { rev } = await searchParams
  const revision = rev === undefined ? part?.newest : part?.revisions.find(({ letter }) => letter === rev)
  if (!part || !revision) notFound()
  const identity = { partNumber: part.number, letter: revision.letter }
  const { templates, missing } = partTemplates(identity, revision, await readSpecInput(revision))
  const at = (query: string) => `/parts/${part.id}/template?rev=${revision.letter}${query}`
  const paperName = shop.paper === 'a4' ? 'A4' : 'Letter'
  return (
    <>
      <PartHead part={part} revision={revision} allows={(needs) => may(actor, needs)} current="templates" />
      <div className="stack stack-loose">
        <Notice kind="caution" title="A print that is not to scale scraps the part">
          Print at 100 %, “actual size”, on {paperName}. Check both scale bars with a rule before you cut: 0.5
          mm out over 100 mm, do not use the sheet.
        </Notice>
        <Section
          title="True-size templates"
          aside={templates.length > 1 && <a href={at('')}>All of them as one PDF</a>}
        >
          {missing.map((why) => (
            <p key={why} className="muted">
              {why}
            </p>
          ))}
          <ul className="template-list">
            {templates.map(({ key, template }) => {
              const { leftMm, bottomMm, rightMm, topMm } = boundsOf(template.primitives)
              const size = [rightMm - leftMm, topMm - bottomMm]
                .map((mm) => formatLength(mm, shop.lengthUnit))
                .join(' × ')
              return (
                <li key={key}>
                  <TemplatePreview template={template} />
                  <div>
                    <h3>{readSentence(template.title, shop.lengthUnit)}</h3>
                    <p className="muted small">{size}</p>
                    <p className="row">
                      <a
                        className="button"
                        href={at(`&of=${key}`)}
                        aria-label={`PDF of ${readSentence(template.title, shop.lengthUnit)}`}
                      >
                        PDF, {paperName}
                      </a>
                      <a
                        className="button"
                        href={at(`&of=${key}&as=svg`)}
                        aria-label={`SVG of ${readSentence(template.title, shop.lengthUnit)}`}
                      >
                        SVG
                      </a>
                      <a
                        className="button"
                        href={at(`&of=${key}&as=dxf`)}
                        aria-label={`DXF of ${readSentence(template.title, shop.lengthUnit)}`}
                      >
                        DXF
                      </a>
                    </p>
                  </div>
                </li>
              )
            })}
          </ul>
        </Section>
      </div>
    </>
  )
}
