export const dynamic = 'force-dynamic'

/** The process answers. Says nothing of the database: that is /api/ready. */
export function GET(): Response {
  return Response.json({ ok: true })
}
