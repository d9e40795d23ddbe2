import { quotePdf } from '@/app/quotes/quote-paper'
import { readIssueSnapshot, readQuote } from '@/lib/records/quote/read'
import { readLogo } from '@/lib/records/shop/read'
import { shopRoute } from '@/lib/server/route'

type Context = { params: Promise<{ id: string }> }

/** The quote as it was sent; ?issue= names an earlier sending. */
export const GET = shopRoute<Context>('quote.read', async (request, { params }) => {
  const { id } = await params
  const quote = /^[1-9]\d{0,8}$/.test(id) ? await readQuote(Number(id)) : null
  const asked = new URL(request.url).searchParams.get('issue') ?? String(quote?.issue ?? '')
  const snapshot =
    quote && /^[1-9]\d{0,4}$/.test(asked) ? await readIssueSnapshot(quote.id, Number(asked)) : null
  if (!quote || !snapshot) return Response.json({ message: 'No such quote was sent.' }, { status: 404 })
  const before = await readIssueSnapshot(quote.id, snapshot.issue - 1)
  return quotePdf(snapshot, { before, logo: await readLogo(snapshot.shop.logoId) })
})
