import { fileAnswer, noSuchPaper, pdfAnswer } from '@/app/_paper/answer'
import { paperIssue } from '@/app/_paper/job-traveller'
import { TemplateDocument } from '@/app/_paper/template-document'
import { rowId } from '@/app/_shop/row-id'
import { templateDxf } from '@/lib/core/templates/dxf'
import { withScaleBars } from '@/lib/core/templates/scale-bars'
import { templateSvg } from '@/lib/core/templates/svg'
import { readPart } from '@/lib/records/part/read'
import { readShop } from '@/lib/records/shop/read'
import { readSpecInput } from '@/lib/records/spec/read'
import { shopRoute } from '@/lib/server/route'
import { partTemplates } from '../../part-templates'

type Context = { params: Promise<{ id: string }> }

/** A true-size template: ?of= names it, none for all of them as one PDF; ?as= is pdf, svg or dxf; ?rev= a revision. */
export const GET = shopRoute<Context>('part.read', async (request, { params }, actor) => {
  const id = rowId((await params).id)
  const [shop, part] = await Promise.all([readShop(), id === null ? null : readPart(id)])
  const ask = new URL(request.url).searchParams
  const rev = ask.get('rev')
  const revision = rev === null ? part?.newest : part?.revisions.find(({ letter }) => letter === rev)
  if (!part || !revision) return noSuchPaper('There is no such part or revision.')
  const identity = { partNumber: part.number, letter: revision.letter }
  const { templates } = partTemplates(identity, revision, await readSpecInput(revision))
  const of = ask.get('of')
  const wanted = of === null ? templates : templates.filter(({ key }) => key === of)
  const [first] = wanted
  if (!first) return noSuchPaper('The part has no such template.')
  const name = `${part.number}-${revision.letter}-${of ?? 'templates'}`
  const as = ask.get('as') ?? 'pdf'
  if (as === 'svg' || as === 'dxf') {
    if (of === null) return noSuchPaper('Name the template: each drawing file holds one.')
    const template = withScaleBars(first.template)
    return as === 'svg'
      ? fileAnswer(templateSvg(template), { name: `${name}.svg`, mediaType: 'image/svg+xml', attached: true })
      : fileAnswer(templateDxf(template), { name: `${name}.dxf`, mediaType: 'image/vnd.dxf', attached: true })
  }
  if (as !== 'pdf') return noSuchPaper('A template comes as pdf, svg or dxf.')
  const printing = { shop, origin: '', by: actor.name, atIso: new Date().toISOString() }
  return pdfAnswer(
    TemplateDocument({
      data: {
        ...paperIssue(printing, 1),
        shopName: shop.name,
        belongsTo: `${part.number} revision ${revision.letter}, ${part.name}`,
        templates: wanted.map(({ template }) => template),
      },
    }),
    name,
  )
})
