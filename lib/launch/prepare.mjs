import crypto from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { takeLock } from './lock.mjs'
import { fromRoot } from './root.mjs'
import { runCommand, runTool } from './run-command.mjs'
import { fingerprint, unlessStamped } from './stamps.mjs'
import { Stop, step } from './steps.mjs'

const CLIENT_SOURCES = ['prisma/schema.prisma', 'prisma.config.ts', 'package-lock.json']
const APP_SOURCES = [
  ...['app', 'lib', 'public', 'prisma', 'proxy.ts', 'instrumentation.ts', 'instrumentation-client.ts'],
  ...['next.config.ts', 'tsconfig.json', 'package-lock.json', 'postcss.config.mjs'],
]
const NOT_IN_APP = ['lib/launch', 'lib/server/generated', 'prisma/migrations']

/** npm ci, when what is installed is not what the lock file says. */
export async function installDependencies() {
  if (isInstalled()) return
  const [command, args, shell] = npmCommand([
    'ci',
    '--include=dev',
    '--no-audit',
    '--no-fund',
    '--loglevel=error',
  ])
  await step('installing what the lock file lists (npm ci)', () =>
    runCommand('npm ci', command, args, { env: { NODE_ENV: '' }, shell }),
  )
  if (!isInstalled()) {
    throw new Stop(
      'npm ci ended well, yet what it installed is not what package-lock.json lists. Delete node_modules and start again.',
    )
  }
}

/** npm writes down what it has installed in a lock file of its own, as its last act. */
function isInstalled() {
  const note = fromRoot('node_modules', '.package-lock.json')
  if (!fs.existsSync(note)) return false
  const installed = JSON.parse(fs.readFileSync(note, 'utf8')).packages
  const wanted = JSON.parse(fs.readFileSync(fromRoot('package-lock.json'), 'utf8')).packages
  return Object.entries(wanted).every(
    ([place, { version, optional }]) =>
      place === '' || installed[place]?.version === version || (optional && !installed[place]),
  )
}

function npmCommand(args) {
  const script = process.env.npm_execpath
  if (script && /npm-cli\.c?js$/.test(script)) return [process.execPath, [script, ...args], false]
  const beside = path.join(
    path.dirname(process.execPath),
    '..',
    'lib',
    'node_modules',
    'npm',
    'bin',
    'npm-cli.js',
  )
  return fs.existsSync(beside)
    ? [process.execPath, [beside, ...args], false]
    : ['npm', args, process.platform === 'win32']
}

/** The typed database client, from the schema. */
export async function generateClient() {
  await unlessStamped(
    {
      stampFile: 'lib/server/generated/made-from',
      input: fingerprint(CLIENT_SOURCES),
      resultFile: 'lib/server/generated/prisma/client.ts',
    },
    () =>
      step('generating the database client', () =>
        runTool('prisma generate', 'node_modules/prisma/build/index.js', ['generate'], { quiet: true }),
      ),
  )
}

/** The production build of the app. */
export async function buildApp() {
  const sources = fingerprint(APP_SOURCES, { except: NOT_IN_APP })
  // Several machines that serve one shop build with one key: their actions then have the same names (see DEVELOPERS.md).
  const key = process.env.NEXT_SERVER_ACTIONS_ENCRYPTION_KEY ?? ''
  const input = crypto.createHash('sha256').update(`${sources} ${key}`).digest('hex')
  const release = takeLock(fromRoot('node_modules', '.bendwright-build.lock'), {
    whenTaken: ({ pid }) => `Process ${pid} is building in this clone just now. Wait until it is done.`,
  })
  try {
    await unlessStamped({ stampFile: '.next/built-from', input, resultFile: '.next/BUILD_ID' }, () =>
      step('building the app', () =>
        runTool('next build', 'node_modules/next/dist/bin/next', ['build'], {
          quiet: true,
          env: {
            NODE_ENV: 'production',
            NEXT_TELEMETRY_DISABLED: '1',
            BENDWRIGHT_BUILD: sources.slice(0, 20),
          },
        }),
      ),
    )
  } finally {
    release()
  }
}
