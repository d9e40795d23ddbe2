import { type DocumentProps, renderToBuffer } from '@react-pdf/renderer'
import type { ReactElement } from 'react'
import { fontsReady } from './fonts'

/** A document as a PDF file. The same data give the same bytes: dates come with the data, never from the clock. */
export async function renderPdf(document: ReactElement<DocumentProps>): Promise<Buffer> {
  await fontsReady()
  return renderToBuffer(document)
}
