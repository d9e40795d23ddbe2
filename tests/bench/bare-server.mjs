/*
 * What the app is measured against: the same rows by hand-written SQL, a bare node:http server and the pg driver, as a
 * plain HTML page or as JSON. No session, no frame, no form: the least that a server of these could do.
 */
import http from 'node:http'
import pg from 'pg'
import { aimAt } from '../../lib/records/bend-record/rules.ts'
import { factorFrom } from '../../lib/records/lesson/rules.ts'
import { answerSpec } from '../../lib/records/spec/schema.ts'

const pools = JSON.parse(process.env.BARE_DATABASES).map(
  (connectionString) => new pg.Pool({ connectionString, max: 10 }),
)
const list = `select job.id, job.number, job.status, job."dueOn", job.quantity, customer.name as customer, revision.letter,
    part.number as part, part.name, (select count(*) from "Piece" piece where piece."jobId" = job.id and status = 'released') as released
  from "Job" job join "Customer" customer on customer.id = job."customerId"
  join "PartRevision" revision on revision.id = job."revisionId" join "Part" part on part.id = revision."partId"`
const order = 'order by job.status, job."dueOn", job.id limit 50'
const queries = {
  jobs: [`${list} ${order}`],
  number: [`${list} where job.number ilike $1 ${order}`],
  customer: [`${list} where customer.name ilike $1 ${order}`],
  part: [`${list} where part.name ilike $1 ${order}`],
  partPage: [
    'select * from "Part" where id = $1',
    'select * from "PartRevision" where "partId" = $1',
    'select bend.* from "Bend" bend join "PartRevision" revision on revision.id = bend."revisionId" where revision."partId" = $1 order by position',
  ],
  jobPage: [
    'select job.*, customer.name as customer from "Job" job join "Customer" customer on customer.id = job."customerId" where job.id = $1',
    'select * from "Piece" where "jobId" = $1 order by number',
    'select record.* from "BendRecord" record join "Piece" piece on piece.id = record."pieceId" where piece."jobId" = $1',
    'select * from "JobOperation" where "jobId" = $1 order by position',
  ],
  bench: [
    'select piece.number, job.number as job, job.plan from "Piece" piece join "Job" job on job.id = piece."jobId" where "scanCode" = $1',
    'select record.* from "BendRecord" record join "Piece" piece on piece.id = record."pieceId" where "scanCode" = $1',
    'select operation.* from "JobOperation" operation join "Piece" piece on piece."jobId" = operation."jobId" where "scanCode" = $1 order by position',
  ],
}

const cell = (value) =>
  `<td>${(value instanceof Date ? value.toISOString() : typeof value === 'object' ? JSON.stringify(value) : String(value)).replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</td>`
const table = (rows) =>
  `<table>${rows.map((row) => `<tr>${Object.values(row).map(cell).join('')}</tr>`).join('')}</table>`

async function pageOf(pool, name, given) {
  const answers = await Promise.all(
    queries[name].map((text, index) =>
      pool.query({ name: `${name}${index}`, text, values: given === null ? [] : [given] }),
    ),
  )
  return `<!doctype html><html lang="en"><title>${name}</title>${answers.map(({ rows }) => table(rows)).join('')}</html>`
}

async function bodyOf(request) {
  const chunks = []
  for await (const chunk of request) chunks.push(chunk)
  return JSON.parse(Buffer.concat(chunks).toString())
}

/** Accepted bends of a material, and tries of the job that nobody decided on: what the next target is reckoned from. */
const taught = `select lesson."sectionText", lesson.method, lesson.value, (record.setup #>> '{observed,sd}')::float8 as sd
  from (select * from "Lesson" where kind = 'springbackFactor' and "materialId" = $1 and "acceptedAt" is not null
    order by id desc limit 500) lesson left join "BendRecord" record on record.id = lesson."bendRecordId"`
const tried = `select (record.setup #>> '{observed,value}')::float8 as value, (record.setup #>> '{observed,sd}')::float8 as sd
  from "Piece" piece join "BendRecord" record on record."pieceId" = piece.id
  where piece."jobId" = $1 and record.verdict <> 'waiting' and jsonb_typeof(record.setup -> 'observed') = 'object'
    and not exists (select 1 from "Lesson" lesson where lesson."bendRecordId" = record.id
      and lesson.kind = 'springbackFactor' and (lesson."acceptedAt" is not null or lesson."declinedAt" is not null))
  limit 1000`

/** A try that is kept already: found under the piece's lock, and the next target from what was learned by now. */
async function again({ scanCode, clientKey }, pool) {
  const client = await pool.connect()
  const rowsOf = async (name, text, values) => (await client.query({ name, text, values })).rows
  try {
    await client.query('begin')
    const [piece] = await rowsOf(
      'piece',
      'select piece.id, job.id as "jobId", job.plan from "Piece" piece join "Job" job on job.id = piece."jobId" where "scanCode" = $1 for update of piece',
      [scanCode],
    )
    const [record] = await rowsOf(
      'record',
      'select id, "bendPosition", "tryNumber", verdict, reasons from "BendRecord" where "clientKey" = $1',
      [clientKey],
    )
    await client.query('commit')
    const { plan } = piece
    const own = { sectionText: plan.sectionText, method: plan.method }
    const shown = await rowsOf('taught', taught, [plan.materialId])
    const ofJob = await rowsOf('tried', tried, [piece.jobId])
    const learned = factorFrom([...shown, ...ofJob.map((one) => ({ ...one, ...own }))], own)
    const before = aimAt(plan, record.bendPosition, plan.factor.value)
    const after = aimAt(plan, record.bendPosition, learned.mean)
    return { record, before, after }
  } finally {
    client.release()
  }
}

const data = { spec: (typed) => answerSpec(typed).answer, again }

const server = http.createServer(async (request, response) => {
  const url = new URL(request.url, 'http://bare')
  const [, shop, name] = url.pathname.split('/')
  try {
    const pool = pools[shop]
    const body = data[name]
      ? JSON.stringify(await data[name](await bodyOf(request), pool))
      : await pageOf(pool, name, url.searchParams.get('q'))
    response.writeHead(200, {
      'content-type': data[name] ? 'application/json' : 'text/html; charset=utf-8',
      'content-length': Buffer.byteLength(body),
    })
    response.end(body)
  } catch (error) {
    response.writeHead(500).end(String(error))
  }
})
server.listen(0, '127.0.0.1', () => process.send(server.address().port))
process.once('disconnect', () => process.exit())
