import { createCanvas, DOMMatrix, Path2D } from '@napi-rs/canvas'
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'

// The reader draws with the global path class; it has to be the canvas's own.
Object.assign(globalThis, { DOMMatrix, Path2D })

export const PT_PER_MM = 72 / 25.4

async function open(pdf: Buffer) {
  return getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise
}

export async function pageCount(pdf: Buffer): Promise<number> {
  return (await open(pdf)).numPages
}

export async function pageSizesPt(pdf: Buffer): Promise<(readonly [number, number])[]> {
  const document = await open(pdf)
  const sizes: (readonly [number, number])[] = []
  for (let number = 1; number <= document.numPages; number++) {
    const { width, height } = (await document.getPage(number)).getViewport({ scale: 1 })
    sizes.push([width, height])
  }
  return sizes
}

export type PlacedText = {
  text: string
  leftPt: number
  rightPt: number
  /** The line the letters stand on, from the foot of the page. */
  bottomPt: number
  sizePt: number
}

/** Every text on a page with where its line stands, in points. */
export async function pageTexts(pdf: Buffer, number: number): Promise<PlacedText[]> {
  const content = await (await (await open(pdf)).getPage(number)).getTextContent()
  return content.items.flatMap((item) =>
    'str' in item
      ? [
          {
            text: item.str,
            leftPt: Number(item.transform[4]),
            sizePt: Math.hypot(Number(item.transform[2]), Number(item.transform[3])),
            rightPt: Number(item.transform[4]) + item.width,
            bottomPt: Number(item.transform[5]),
          },
        ]
      : [],
  )
}

export async function wholeText(pdf: Buffer): Promise<string> {
  const pages: string[] = []
  for (let number = 1; number <= (await pageCount(pdf)); number++) {
    pages.push((await pageTexts(pdf, number)).map(({ text }) => text).join(' '))
  }
  return pages.join('\n').replace(/\s+/g, ' ')
}

type Matrix = readonly [number, number, number, number, number, number]

function times(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer
  const [g, h, i, j, k, l] = inner
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f]
}

/**
 * The straight strokes of a page in points, from the file's own operators: move and line of each path through the
 * current transformation. Source: ISO 32000-1, 8.3.4 and 8.5.2.
 */
export async function strokesPt(
  pdf: Buffer,
  number: number,
): Promise<{ from: [number, number]; to: [number, number] }[]> {
  const { fnArray, argsArray } = await (await (await open(pdf)).getPage(number)).getOperatorList()
  const strokes: { from: [number, number]; to: [number, number] }[] = []
  let matrix: Matrix = [1, 0, 0, 1, 0, 0]
  const saved: Matrix[] = []
  const at = (x: number, y: number): [number, number] => [
    matrix[0] * x + matrix[2] * y + matrix[4],
    matrix[1] * x + matrix[3] * y + matrix[5],
  ]
  fnArray.forEach((fn, index) => {
    const args = argsArray[index] as unknown[]
    if (fn === OPS.save) saved.push(matrix)
    else if (fn === OPS.restore) matrix = saved.pop() ?? matrix
    else if (fn === OPS.transform) matrix = times(matrix, args as unknown as Matrix)
    else if (fn === OPS.constructPath) {
      const [data] = args[1] as [ArrayLike<number> | null]
      const path = Array.from(data ?? [])
      let here: [number, number] = [0, 0]
      // The reader's path codes: 0 move, 1 line, 2 cubic curve, 3 quadratic curve, 4 close.
      for (let place = 0; place < path.length; ) {
        const code = path[place]
        const pairs = { 0: 1, 1: 1, 2: 3, 3: 2, 4: 0 }[code ?? 4] ?? 0
        const last = place + 2 * pairs
        const next: [number, number] = pairs > 0 ? [path[last - 1] ?? 0, path[last] ?? 0] : here
        if (code === 1) strokes.push({ from: at(...here), to: at(...next) })
        here = next
        place = last + 1
      }
    }
  })
  return strokes
}

/** A page as pixels, black on white. */
export async function pixels(pdf: Buffer, number: number, dotsPerMm: number) {
  const page = await (await open(pdf)).getPage(number)
  const viewport = page.getViewport({ scale: (dotsPerMm * 25.4) / 72 })
  const canvas = createCanvas(Math.ceil(viewport.width), Math.ceil(viewport.height))
  const context = canvas.getContext('2d')
  context.fillStyle = '#fff'
  context.fillRect(0, 0, canvas.width, canvas.height)
  await page.render({
    canvas: canvas as unknown as HTMLCanvasElement,
    canvasContext: context as unknown as CanvasRenderingContext2D,
    viewport,
  }).promise
  return context.getImageData(0, 0, canvas.width, canvas.height)
}
