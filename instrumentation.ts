import type { Instrumentation } from 'next'

/** Once, before the first request. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  const { observeRequests } = await import('@/lib/server/metrics')
  observeRequests()
}

/** Ties what the error screen names (the digest) and the answer's x-request-id to what went wrong. */
export const onRequestError: Instrumentation.onRequestError = async (cause, request, context) => {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  // The asker went away in the middle, which is nobody's fault.
  if ((cause as { code?: unknown }).code === 'ECONNRESET') return
  const { log } = await import('@/lib/server/log')
  const requestId = request.headers['x-request-id']
  const digest = (cause as { digest?: unknown }).digest
  log.error('request failed', cause, {
    method: request.method,
    route: context.routePath,
    ...(typeof requestId === 'string' && { requestId }),
    ...(typeof digest === 'string' && { digest }),
  })
}
