import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { Font } from '@react-pdf/renderer'
import { pieces } from './clean-text'
import { plainFont } from './woff'

/** Families in the order a letter is looked for: Latin first, then the letters of its neighbours. */
export const SANS = ['Plex', 'Plex Ext', 'Plex Greek', 'Plex Cyrillic']
export const MONO = ['Plex Mono', 'Plex', 'Plex Ext', 'Plex Greek', 'Plex Cyrillic']

const SUBSETS = [
  ['Plex', 'ibm-plex-sans', 'latin'],
  ['Plex Ext', 'ibm-plex-sans', 'latin-ext'],
  ['Plex Greek', 'ibm-plex-sans', 'greek'],
  ['Plex Cyrillic', 'ibm-plex-sans', 'cyrillic'],
  ['Plex Mono', 'ibm-plex-mono', 'latin'],
] as const

let ready: Promise<void> | undefined

/** Makes the fonts known to the renderer, once a process; the server is always started in the project's folder. */
export function fontsReady(): Promise<void> {
  ready ??= registerFonts()
  return ready
}

async function registerFonts(): Promise<void> {
  for (const [family, name, subset] of SUBSETS) {
    const fonts = [400, 600].map((fontWeight) => ({
      src: fontSource(`${name}-${subset}-${fontWeight}-normal.woff`, name),
      fontWeight,
    }))
    Font.register({ family, fonts })
  }
  Font.registerHyphenationCallback(pieces)
  await keepLaidOutTexts()
}

/** What is laid out once and kept: the labels and instructions of a shop's papers are the same from one to the next. */
const MOST_KEPT = 4000

type Laying = { layout: (words: string, ...how: unknown[]) => unknown }

/**
 * Keeps the glyphs of texts already laid out, for the life of the process. The renderer only reads them: it makes its own
 * positions of every run. A text is laid out anew for other features or another font.
 */
async function keepLaidOutTexts(): Promise<void> {
  for (const [fontFamily] of SUBSETS) {
    for (const fontWeight of [400, 600] as const) {
      await Font.load({ fontFamily, fontWeight })
      const found = Font.getFont({ fontFamily, fontWeight })?.data as unknown as Laying | undefined
      if (!found) throw new Error(`The paper's font ${fontFamily} ${fontWeight} did not load.`)
      const layOut = found.layout.bind(found)
      const kept = new Map<string, unknown>()
      found.layout = (words, ...how) => {
        const key = `${JSON.stringify(how)} ${words}`
        const known = kept.get(key)
        if (known) return known
        if (kept.size >= MOST_KEPT) kept.clear()
        const laidOut = layOut(words, ...how)
        kept.set(key, laidOut)
        return laidOut
      }
    }
  }
}

function fontSource(fileName: string, packageName: string): string {
  const file = path.join(process.cwd(), 'node_modules', '@fontsource', packageName, 'files', fileName)
  if (!existsSync(file))
    throw new Error(`The paper's font is missing: ${file}. Start in the project's folder, after npm ci.`)
  return `data:font/ttf;base64,${plainFont(readFileSync(file)).toString('base64')}`
}
