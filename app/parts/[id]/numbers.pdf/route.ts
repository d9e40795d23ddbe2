import { noSuchPaper, pdfAnswer } from '@/app/_paper/answer'
import { paperIssue } from '@/app/_paper/job-traveller'
import { NumbersDocument } from '@/app/_paper/numbers-document'
import { rowId } from '@/app/_shop/row-id'
import { SpecRefusal } from '@/lib/core/spec/contract'
import { readPart } from '@/lib/records/part/read'
import { readShop } from '@/lib/records/shop/read'
import { readSpecInput } from '@/lib/records/spec/read'
import { shopRoute } from '@/lib/server/route'
import { specNumbers } from '../../spec-numbers'

type Context = { params: Promise<{ id: string }> }

/** Where every number of the part's bend spec comes from; ?rev= names a revision. */
export const GET = shopRoute<Context>('part.read', async (request, { params }, actor) => {
  const id = rowId((await params).id)
  const [shop, part] = await Promise.all([readShop(), id === null ? null : readPart(id)])
  const rev = new URL(request.url).searchParams.get('rev')
  const revision = rev === null ? part?.newest : part?.revisions.find(({ letter }) => letter === rev)
  if (!part || !revision) return noSuchPaper('There is no such part or revision.')
  const input = await readSpecInput(revision)
  if (!input) return noSuchPaper('Keep a set-up for this revision first: the numbers come from it.')
  try {
    const printing = { shop, origin: '', by: actor.name, atIso: new Date().toISOString() }
    return await pdfAnswer(
      NumbersDocument({
        data: {
          ...paperIssue(printing, 1),
          shopName: shop.name,
          belongsTo: `${part.number} revision ${revision.letter}, ${part.name}`,
          ...specNumbers(input, shop.lengthUnit),
        },
      }),
      `${part.number}-${revision.letter}-numbers`,
    )
  } catch (cause) {
    if (cause instanceof SpecRefusal) return noSuchPaper(cause.message)
    throw cause
  }
})
