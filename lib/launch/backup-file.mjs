import { createHash } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { promisify } from 'node:util'
import { measuring } from './backup-tables.mjs'
import { Stop } from './steps.mjs'

/*
 * A backup is a ZIP file that any archive program opens: tables/NAME.copy with the rows as PostgreSQL's COPY text,
 * files/KEY with attachments that were not in the database, manifest.json with counts and a SHA-256 for each of them.
 * Its last 64 characters are the SHA-256 of everything before them, so that damage anywhere is noticed.
 */
export const FORMAT = 'bendwright-backup-1'
const SEAL = 'bendwright-sha256:'
const DIGEST_LENGTH = 64

/**
 * Writes the entries, one after another, to `file`, which appears only once it is whole.
 * @param {string} file
 * @param {{ name: string, open: () => Promise<import('node:stream').Readable> }[]} entries
 * @param {(measured: Map<string, { byteCount: number, rowCount: number, sha256: string }>) => Promise<object>} manifest
 */
export async function writeBackupFile(file, entries, manifest) {
  refuseTaken(file)
  const half = `${file}.${process.pid}.part`
  const handle = await fs.promises.open(half, 'wx', 0o600).catch((error) => {
    throw inWords(error, file)
  })
  const { default: yazl } = await import('yazl')
  const zip = new yazl.ZipFile()
  const measured = new Map()
  let fail
  const failed = new Promise((_resolve, reject) => {
    fail = reject
  })
  failed.catch(() => {}) // heard below, or after the file is whole
  zip.on('error', fail)
  for (const { name, open } of entries) {
    zip.addReadStreamLazy(name, (give) => {
      open().then((source) => {
        const counting = measuring()
        measured.set(name, counting.measured)
        counting.stream.on('error', fail) // the archive itself does not listen, and would wait for ever
        source.on('error', (error) => counting.stream.destroy(error))
        give(null, source.pipe(counting.stream))
      }, give)
    })
  }
  zip.addReadStreamLazy('manifest.json', (give) => {
    manifest(measured).then(
      (value) => give(null, Readable.from([`${JSON.stringify(value, null, 2)}\n`]).on('error', fail)),
      give,
    )
  })
  zip.end({ comment: Buffer.from(SEAL + '0'.repeat(DIGEST_LENGTH)) })

  const seal = sealing()
  const out = handle.createWriteStream({ flush: true })
  try {
    await Promise.race([pipeline(zip.outputStream, seal.stream, out), failed])
    refuseTaken(file)
    fs.renameSync(half, file)
  } catch (error) {
    zip.outputStream.destroy()
    out.destroy()
    throw inWords(error, file)
  } finally {
    fs.rmSync(half, { force: true })
  }
  return { byteCount: fs.statSync(file).size, sha256: seal.digest() }
}

function refuseTaken(file) {
  if (fs.existsSync(file)) {
    throw new Stop(`${file} is there already, and a backup never takes the place of another file.`)
  }
}

function inWords(error, file) {
  const words = {
    ENOSPC: `The disk is full: the backup ${file} could not be written, and nothing of it is left. Free some space, or name another disk.`,
    ENOENT: `There is no folder ${path.dirname(file)}.`,
    EACCES: `This user may not write to ${path.dirname(file)}.`,
    EROFS: `${path.dirname(file)} can only be read.`,
  }
  return words[error.code] ? new Stop(words[error.code]) : error
}

/** Replaces the last 64 characters by the digest of all before them. */
function sealing() {
  const hash = createHash('sha256')
  let digest = ''
  let held = Buffer.alloc(0)
  const stream = new Transform({
    transform(chunk, _encoding, done) {
      const all = Buffer.concat([held, chunk])
      const sure = all.subarray(0, Math.max(0, all.length - DIGEST_LENGTH))
      held = Buffer.from(all.subarray(sure.length))
      hash.update(sure)
      done(null, sure)
    },
    flush(done) {
      digest = hash.digest('hex')
      done(null, Buffer.from(digest))
    },
  })
  return { stream, digest: () => digest }
}

/** Opens a backup after checking it whole: the seal, then every entry against the manifest. Call `close` when done. */
export async function openBackupFile(file) {
  const seal = await checkSeal(file)
  const { default: yauzl } = await import('yauzl')
  const zip = await promisify(yauzl.open)(file, { lazyEntries: true, autoClose: false })
  const found = await readEntries(zip)
  const open = async (name) => {
    const entry = found.get(name)
    if (!entry) throw new Stop(`The backup ${file} lacks ${name}.`)
    return promisify(zip.openReadStream.bind(zip))(entry)
  }
  try {
    const manifest = JSON.parse(await textOf(await open('manifest.json')))
    if (manifest.format !== FORMAT) {
      throw new Stop(
        `${file} is a backup in the format "${manifest.format}", which this Bendwright does not know.`,
      )
    }
    for (const { entry, sha256 } of [...manifest.tables, ...manifest.files]) {
      const { stream, measured } = measuring()
      stream.resume()
      await pipeline(await open(entry), stream)
      if (measured.sha256 !== sha256)
        throw new Stop(`The backup ${file} is damaged: ${entry} is not what was written.`)
    }
    return { manifest, open, seal, close: () => zip.close() }
  } catch (error) {
    zip.close()
    throw error
  }
}

async function checkSeal(file) {
  const stat = fs.statSync(file, { throwIfNoEntry: false })
  if (!stat?.isFile()) throw new Stop(`There is no file ${file}.`)
  const tail = await textOf(
    fs.createReadStream(file, { start: Math.max(0, stat.size - SEAL.length - DIGEST_LENGTH) }),
  )
  if (!tail.startsWith(SEAL)) {
    throw new Stop(
      `${file} is no whole backup of Bendwright: it was cut short, damaged, or is something else.`,
    )
  }
  const hash = createHash('sha256')
  await pipeline(fs.createReadStream(file, { end: stat.size - DIGEST_LENGTH - 1 }), hash)
  const seal = tail.slice(SEAL.length)
  if (hash.digest('hex') !== seal) {
    throw new Stop(
      `The backup ${file} is damaged: its checksum does not fit. Nothing was changed. Take another one.`,
    )
  }
  return seal
}

function readEntries(zip) {
  const found = new Map()
  return new Promise((resolve, reject) => {
    zip.on('entry', (entry) => {
      found.set(entry.fileName, entry)
      zip.readEntry()
    })
    zip.once('end', () => resolve(found))
    zip.once('error', reject)
    zip.readEntry()
  })
}

async function textOf(stream) {
  const chunks = []
  for await (const chunk of stream) chunks.push(chunk)
  return Buffer.concat(chunks).toString('utf8')
}
