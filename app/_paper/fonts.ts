import { existsSync } from 'node:fs'
import path from 'node:path'
import { Font } from '@react-pdf/renderer'
import { pieces } from './clean-text'

/** Families in the order a letter is looked for: Latin first, then the letters of its neighbours. */
export const SANS = ['Plex', 'Plex Ext', 'Plex Greek', 'Plex Cyrillic']
export const MONO = ['Plex Mono', 'Plex Ext', 'Plex', 'Plex Greek', 'Plex Cyrillic']

const SUBSETS = [
  ['Plex', 'ibm-plex-sans', 'latin', 'woff'],
  ['Plex Ext', 'ibm-plex-sans', 'latin-ext', 'woff'],
  ['Plex Greek', 'ibm-plex-sans', 'greek', 'woff'],
  ['Plex Cyrillic', 'ibm-plex-sans', 'cyrillic', 'woff'],
  // The space is the last glyph of this face's .woff, past the end of its outlines, and the font reader fails on it there.
  ['Plex Mono', 'ibm-plex-mono', 'latin', 'woff2'],
] as const

let areRegistered = false

/** Tells the renderer where the fonts lie, once a process; the server is always started in the project's folder. */
export function registerFonts(): void {
  if (areRegistered) return
  for (const [family, name, subset, kind] of SUBSETS) {
    const fonts = [400, 600].map((fontWeight) => ({ src: fontFile(`${name}-${subset}-${fontWeight}-normal.${kind}`, name), fontWeight }))
    Font.register({ family, fonts })
  }
  Font.registerHyphenationCallback(pieces)
  areRegistered = true
}

function fontFile(fileName: string, packageName: string): string {
  const file = path.join(process.cwd(), 'node_modules', '@fontsource', packageName, 'files', fileName)
  if (!existsSync(file)) throw new Error(`The paper's font is missing: ${file}. Start in the project's folder, after npm ci.`)
  return file
}
