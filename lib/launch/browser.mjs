import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import { packagedChromium } from './packaged-chromium.mjs'
import { runCommand } from './run-command.mjs'
import { Stop, say, step } from './steps.mjs'

const SYSTEM_PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
]

/** The same browser behaviour everywhere: no sandbox (root in a container has none), and no calls home. */
const ARGS = [
  '--no-sandbox',
  '--disable-quic',
  '--disable-background-networking',
  '--disable-component-update',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
]

/**
 * A Chromium to test with: the one named by CHROMIUM_PATH, Playwright's own, one the machine has, the one that comes
 * with the development packages, or, as root on a Debian-like machine, one from its package manager.
 */
export async function findBrowser() {
  const { CHROMIUM_PATH } = process.env
  if (CHROMIUM_PATH) {
    if (answers(CHROMIUM_PATH)) return { executablePath: CHROMIUM_PATH, env: {}, args: ARGS }
    throw new Stop(`CHROMIUM_PATH is ${CHROMIUM_PATH}, and that does not run as a Chromium.`)
  }
  const { chromium } = await import('@playwright/test')
  const installed = [chromium.executablePath(), ...SYSTEM_PLACES].find(answers)
  if (installed) return { executablePath: installed, env: {}, args: ARGS }
  const packaged = await packagedChromium()
  if (packaged && answers(packaged.executablePath, packaged.env)) return { ...packaged, args: ARGS }
  const fromSystem = await installFromSystem()
  if (fromSystem) return { executablePath: fromSystem, env: {}, args: ARGS }
  throw new Stop(
    'There is no Chromium to test the screens with. Install one (npx playwright install chromium, or the Chromium package ' +
      'of your system), or name one: CHROMIUM_PATH=/path/to/chromium npm test',
  )
}

function answers(executablePath, env = {}) {
  if (!fs.existsSync(executablePath)) return false
  if (process.platform === 'win32') return true // there --version opens a window
  const asked = spawnSync(executablePath, ['--version', '--no-sandbox'], {
    env: { ...process.env, ...env },
    encoding: 'utf8',
    timeout: 30_000,
  })
  return asked.status === 0 && /chrom/i.test(asked.stdout)
}

async function installFromSystem() {
  if (process.getuid?.() !== 0 || !fs.existsSync('/usr/bin/apt-get')) return null
  const apt = (args) =>
    runCommand(`apt-get ${args[0]}`, 'apt-get', args, {
      quiet: true,
      env: { DEBIAN_FRONTEND: 'noninteractive' },
    })
  try {
    await step('installing Chromium from the system packages', async () => {
      await apt(['update'])
      await apt(['install', '-y', '--no-install-recommends', 'chromium'])
    })
  } catch (error) {
    say(error.message)
  }
  return SYSTEM_PLACES.find((place) => answers(place)) ?? null
}
