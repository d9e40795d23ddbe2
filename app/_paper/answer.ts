import type { DocumentProps } from '@react-pdf/renderer'
import type { ReactElement } from 'react'
import { renderPdf } from './render'

/** The address the shop is reached under, as the browser that asks sees it. */
export function originOf(headers: Headers, fallback = 'http://localhost'): string {
  const host = headers.get('x-forwarded-host') ?? headers.get('host')
  return host ? `${headers.get('x-forwarded-proto') ?? 'http'}://${host}` : fallback
}

/** A file's name from what people typed: letters, figures and dashes. */
function fileName(words: string): string {
  return words
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9.-]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80)
}

export function fileAnswer(
  content: string | Uint8Array<ArrayBuffer>,
  file: { name: string; mediaType: string; attached?: boolean },
): Response {
  return new Response(content, {
    headers: {
      'content-type': file.mediaType,
      'content-disposition': `${file.attached ? 'attachment' : 'inline'}; filename="${fileName(file.name)}"`,
      'cache-control': 'private, no-store',
    },
  })
}

export async function pdfAnswer(document: ReactElement<DocumentProps>, name: string): Promise<Response> {
  return fileAnswer(new Uint8Array(await renderPdf(document)), {
    name: `${name}.pdf`,
    mediaType: 'application/pdf',
  })
}

export function noSuchPaper(message: string): Response {
  return Response.json({ message }, { status: 404 })
}
