import { quotePdf } from '@/app/quotes/quote-paper'
import { readSentQuote } from '@/lib/records/quote/read'
import { readLogo } from '@/lib/records/shop/read'

type Context = { params: Promise<{ token: string }> }

/** The customer's paper, by the link alone. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const { token } = await params
  const sent = token.length <= 100 ? await readSentQuote(token) : null
  if (!sent) return Response.json({ message: 'There is no quote behind this link.' }, { status: 404 })
  const url = new URL(request.url)
  const host = request.headers.get('x-forwarded-host') ?? request.headers.get('host') ?? url.host
  const scheme = request.headers.get('x-forwarded-proto') ?? url.protocol.replace(':', '')
  const { snapshot, before } = sent
  const logo = await readLogo(snapshot.shop.logoId)
  return quotePdf(snapshot, { before, logo, acceptUrl: `${scheme}://${host}/q/${token}` })
}
