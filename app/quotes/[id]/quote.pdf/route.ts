import { quotePdf } from '@/app/quotes/quote-paper'
import { readIssueSnapshot, readQuote } from '@/lib/records/quote/read'
import { shopRoute } from '@/lib/server/route'

type Context = { params: Promise<{ id: string }> }

/** The quote as it was sent; ?issue= names an earlier sending. */
export const GET = shopRoute<Context>('quote.read', async (request, { params }) => {
  const { id } = await params
  const quote = /^[1-9]\d{0,8}$/.test(id) ? await readQuote(Number(id)) : null
  const asked = new URL(request.url).searchParams.get('issue') ?? String(quote?.issue ?? '')
  const snapshot =
    quote && /^[1-9]\d{0,4}$/.test(asked) ? await readIssueSnapshot(quote.id, Number(asked)) : null
  return quote && snapshot
    ? quotePdf(snapshot, { before: await readIssueSnapshot(quote.id, snapshot.issue - 1) })
    : Response.json({ message: 'No such quote was sent.' }, { status: 404 })
})
