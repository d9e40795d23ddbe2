import fs from 'node:fs'
import path from 'node:path'
import vm from 'node:vm'
import { gzipSync } from 'node:zlib'

/** What a bench phone has to load of scripts, at most: some three seconds on a weak connection of 0.5 Mbit/s. */
export const mostScriptBytes = 170_000

export type PageWeight = { scriptBytes: number; files: { file: string; bytes: number }[] }

type Manifest = { entryJSFiles: Record<string, string[]> }

/**
 * The scripts that the bench's screen of a piece loads before it works, compressed as the server sends them: those of
 * every page and those of its own layouts. Read from the last production build; null where there is none.
 */
export function benchPageWeight(root = path.resolve(import.meta.dirname, '../..')): PageWeight | null {
  const build = path.join(root, '.next')
  const page = path.join(build, 'server/app/bench/[code]')
  const manifestFile = path.join(page, 'page_client-reference-manifest.js')
  if (!fs.existsSync(path.join(build, 'BUILD_ID')) || !fs.existsSync(manifestFile)) return null
  const { rootMainFiles } = JSON.parse(
    fs.readFileSync(path.join(page, 'page/build-manifest.json'), 'utf8'),
  ) as { rootMainFiles: string[] }
  const sandbox: { __RSC_MANIFEST: Record<string, Manifest> } = { __RSC_MANIFEST: {} }
  vm.runInNewContext(fs.readFileSync(manifestFile, 'utf8'), { globalThis: sandbox })
  const { entryJSFiles } = sandbox.__RSC_MANIFEST['/bench/[code]/page'] ?? { entryJSFiles: {} }
  const own = Object.values(entryJSFiles).flat()
  const files = [...new Set([...rootMainFiles, ...own])].map((file) => ({
    file,
    bytes: gzipSync(fs.readFileSync(path.join(build, file))).length,
  }))
  return { scriptBytes: files.reduce((sum, { bytes }) => sum + bytes, 0), files }
}
