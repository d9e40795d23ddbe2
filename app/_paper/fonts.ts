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

let areRegistered = false

/** Tells the renderer where the fonts lie, once a process; the server is always started in the project's folder. */
export function registerFonts(): void {
  if (areRegistered) return
  for (const [family, name, subset] of SUBSETS) {
    const fonts = [400, 600].map((fontWeight) => ({
      src: fontSource(`${name}-${subset}-${fontWeight}-normal.woff`, name),
      fontWeight,
    }))
    Font.register({ family, fonts })
  }
  Font.registerHyphenationCallback(pieces)
  areRegistered = true
}

function fontSource(fileName: string, packageName: string): string {
  const file = path.join(process.cwd(), 'node_modules', '@fontsource', packageName, 'files', fileName)
  if (!existsSync(file))
    throw new Error(`The paper's font is missing: ${file}. Start in the project's folder, after npm ci.`)
  return `data:font/ttf;base64,${plainFont(readFileSync(file)).toString('base64')}`
}
