// `npm run --silent spec -- FILE.json`: the bend spec on the command line. Standard output holds the answer and nothing else.
import { spawnSync } from 'node:child_process'
import crypto from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { ROOT as root } from './root.mjs'

// npm runs scripts in the clone's folder; a file is named from where the person stands.
const start = process.env.INIT_CWD ?? process.cwd()
const modules = path.join(root, 'node_modules')

if (!fs.existsSync(path.join(modules, 'esbuild'))) {
  const npm = process.env.npm_execpath
  const [command, before] = npm ? [process.execPath, [npm]] : ['npm', []]
  const installed = spawnSync(command, [...before, 'ci', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: !npm && process.platform === 'win32',
  })
  if (installed.status !== 0) process.exit(1)
}

function sources(folder) {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const file = path.join(folder, entry.name)
    return entry.isDirectory() ? sources(file) : [file]
  })
}

// Bundled once for each state of the sources, so that asking again costs no compiling.
const files = [
  ...sources(path.join(root, 'lib/core')),
  ...sources(path.join(root, 'lib/records/spec')),
].sort()
const hash = crypto.createHash('sha256')
for (const file of files) {
  const { mtimeMs, size } = fs.statSync(file)
  hash.update(`${file}\0${mtimeMs}\0${size}\n`)
}
const cache = path.join(modules, '.cache', 'bendwright')
const bundle = path.join(cache, `spec-${hash.digest('hex').slice(0, 16)}.mjs`)
if (!fs.existsSync(bundle)) {
  const { build } = await import('esbuild')
  fs.mkdirSync(cache, { recursive: true })
  // Another call may be using its bundle right now: only those of an hour ago go.
  for (const old of fs.readdirSync(cache)) {
    const stale = fs.statSync(path.join(cache, old), { throwIfNoEntry: false })
    if (old.startsWith('spec-') && stale && Date.now() - stale.mtimeMs > 3_600_000)
      fs.rmSync(path.join(cache, old), { force: true })
  }
  const half = `${bundle}.${process.pid}`
  await build({
    entryPoints: [path.join(root, 'lib/records/spec/command.ts')],
    outfile: half,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    alias: { '@': root },
    logLevel: 'warning',
  })
  fs.renameSync(half, bundle)
}

const [, , named] = process.argv
process.argv = [
  process.execPath,
  bundle,
  ...(named === undefined ? [] : [named === '-' ? '-' : path.resolve(start, named)]),
]
await import(pathToFileURL(bundle).href)
