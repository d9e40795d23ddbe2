import fs from 'node:fs'
import http from 'node:http'
import path from 'node:path'
import fc from 'fast-check'
import { addressOf, appFiles, pageEntries, routeEntries } from './entries'
import { actionForms } from './form-values'
import { hostileJson, hostileText } from './hostile'
import { multipartBody, multipartType, type Part } from './multipart'
import { actionIds, type CustomerLink, roles, servedBase, sessionTokens } from './served-shop'

export type HostileRequest = {
  readonly kind: string
  /** A role, somebody without a session, a customer's link in place of a session, or a page of another site. */
  readonly as: string
  readonly method: string
  readonly address: string
  readonly headers: Readonly<Record<string, string>>
  readonly body: string | Uint8Array
  /** The sender goes away before all of the body is sent. */
  readonly cut: boolean
}

export type HostileAnswer = { status: number; text: string; place: string }

const { host, hostname, port } = new URL(servedBase)
const agent = new http.Agent({ keepAlive: true, maxSockets: 16 })

/** Where an answer leads: an action's answer names it in a head of its own. */
const placeOf = (heads: http.IncomingHttpHeaders) =>
  heads.location ?? [heads['x-action-redirect'] ?? ''].flat().join()

/** Sends the address and the heads as they are: fetch would put them right first. 0 where no answer came. */
export function send(one: HostileRequest): Promise<HostileAnswer> {
  const token = sessionTokens.get(one.as === 'elsewhere' ? 'owner' : one.as)
  const headers = {
    host,
    ...(one.method !== 'GET' && {
      origin: one.as === 'elsewhere' ? 'https://elsewhere.example' : servedBase,
    }),
    ...(token !== undefined && { cookie: `bendwright_session=${token}` }),
    ...one.headers,
    'content-length': String(Buffer.byteLength(one.body)),
  }
  return new Promise((resolve) => {
    const none = (cause: Error) => resolve({ status: 0, text: cause.message, place: '' })
    let request: http.ClientRequest
    try {
      request = http.request({ hostname, port, method: one.method, path: one.address, headers, agent })
    } catch (cause) {
      return none(cause as Error) // Node itself refuses to send this
    }
    request.setTimeout(60_000, () => request.destroy(new Error('no answer within a minute')))
    request.on('error', none)
    request.on('response', (response) => {
      let text = ''
      response.setEncoding('utf8')
      response.on('data', (chunk: string) => {
        if (text.length < 300_000) text += chunk
      })
      response.on('error', none)
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, text, place: placeOf(response.headers) }),
      )
    })
    if (!one.cut) return request.end(one.body)
    request.write(Buffer.from(one.body).subarray(0, Math.ceil(one.body.length / 2)))
    setTimeout(() => request.destroy(), 20)
  })
}

/** What pages look for in their address, as their sources name it. */
function queryNames(): string[] {
  const root = path.resolve(import.meta.dirname, '../..')
  const names = appFiles('page.tsx').flatMap((file) =>
    [
      ...fs.readFileSync(path.join(root, file), 'utf8').matchAll(/(?:asked|searchParams\)|query)\??\.(\w+)/g),
    ].map(([, name]) => name ?? ''),
  )
  return [...new Set(names)].sort()
}

const png = Buffer.from('89504e470d0a1a0a0000000d4948445200000001000000010806000000', 'hex')
const script = '<html><script>fetch("/people")</script></html>'
const contents: readonly (string | Uint8Array)[] = [
  '',
  '%PDF-1.7\n%%EOF',
  `%PDF-1.4 1 0 obj<</OpenAction<</S/JavaScript/JS(app.alert(1))>>>>endobj ${script}`,
  png,
  Buffer.concat([png, Buffer.from(script)]),
  `\u00ff\u00d8\u00ff${script}`,
  Buffer.concat([Buffer.from('ffd8ffe0', 'hex'), Buffer.from(script)]),
  `GIF89a/*${script}*/`,
  `<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>`,
  script,
  'PK\u0003\u0004',
  'ISO-10303-21;\nHEADER;',
  '999\n../../etc\n0\nSECTION\n2\nENTITIES\n',
  '\u0000'.repeat(5000),
]
const tooMuch = Buffer.concat([Buffer.from('%PDF-1.7\n'), Buffer.alloc(25 * 1024 * 1024 + 100_000)])
const muchMore = Buffer.alloc(30 * 1024 * 1024, 'a')

const mediaTypes = [
  'text/plain;charset=UTF-8',
  'application/json',
  'application/x-www-form-urlencoded',
  'multipart/form-data',
  'multipart/form-data; boundary=',
  'multipart/form-data; boundary=x; boundary=y',
  'multipart/mixed; boundary=x',
  'text/html',
  'application/octet-stream',
  'text/plain; charset=utf-7',
  '',
  ';;;',
]

/** References as the framework's own reader of action bodies knows them, to parts that are there, are not, or are itself. */
const references = [
  ...['$0', '$1', '$2', '$99', '$ffffffffffff', '$', '$ ', '$$1', '$1:a', '$1:a:b:c', '$0:0', '$0:0:0'],
  ...['$1:__proto__', '$1:__proto__:then', '$1:constructor:constructor', '$0:constructor', '$1:length'],
  ...['$@0', '$@1', '$@99', '$@', '$F0', '$F1', '$h1', '$h99', '$H1', '$T', '$T1', '$Q1', '$Q99', '$W1'],
  ...['$K1', '$K', '$K99', '$i1', '$i99', '$B1', '$B99', '$A1', '$o1', '$V99', '$R1', '$r1', '$X1', '$x1'],
  ...['$n1', '$nabc', `$n${'9'.repeat(400)}`, '$Dnever', '$N', '$I', '$-', '$u', '$undefined', '$E', '$Z'],
]
const chunkTexts = [
  ...[
    '',
    '{}',
    '[]',
    'null',
    '"$0"',
    '"$1"',
    '["$1"]',
    '{"then":"$1:__proto__:then"}',
    '[',
    '{"a":',
    '1e999',
  ],
  '{"__proto__":{"admin":true},"constructor":{"prototype":{"a":1}}}',
  '{"id":"toString","bound":null}',
  '{"id":null,"bound":["$@1"]}',
  '{"then":"$1:__proto__:then","status":"resolved_model","reason":-1,"value":"{\\"then\\":\\"$B1\\"}","_response":{"_prefix":"1","_formData":{"get":"$1:constructor:constructor"}}}',
  `${'['.repeat(20_000)}${']'.repeat(20_000)}`,
  `${'{"a":'.repeat(5000)}1${'}'.repeat(5000)}`,
  `[${'1,'.repeat(50_000)}1]`,
]

/**
 * A request of any sort to any way into the app: every page, route and action that the sources hold, with addresses,
 * heads and bodies that fit nearly, badly or not at all.
 */
export async function hostileRequests(links: readonly CustomerLink[]): Promise<fc.Arbitrary<HostileRequest>> {
  const ids = actionIds()
  const forms = await actionForms()
  const pages = pageEntries().map(({ file }) => addressOf(file))
  const routes = routeEntries().map(({ file, name }) => ({ place: addressOf(file), method: name }))
  const tokens = fc.constantFrom(...links.map(({ token }) => token), 'x'.repeat(43), '__proto__', '%00', '..')
  const encoded = hostileText.map((text) =>
    encodeURIComponent(Buffer.from(text.slice(0, 600)).toString()).replaceAll('.', '%2e'),
  )
  const inPlace = fc.oneof(
    { weight: 6, arbitrary: fc.integer({ min: 1, max: 40 }).map(String) },
    { weight: 2, arbitrary: encoded },
    {
      weight: 1,
      arbitrary: fc.constantFrom('%ff', '%', '%2e%2e%2f', '0', '-1', '1e3', '99999999999999999999', '%c0%af'),
    },
  )
  const filled = (place: fc.Arbitrary<string>) =>
    fc
      .tuple(place, inPlace, tokens)
      .map(([address, id, token]) => address.replace('[token]', token).replace(/\[[^\]]+\]/g, () => id))
  const query = fc
    .array(
      fc.tuple(
        fc.oneof(
          { weight: 6, arbitrary: fc.constantFrom(...queryNames()) },
          { weight: 1, arbitrary: encoded },
        ),
        fc.oneof(encoded, fc.integer({ min: -1, max: 50 }).map(String), fc.constantFrom('%ff', '%E0%A4%A')),
      ),
      { maxLength: 4 },
    )
    .map((pairs) => (pairs.length === 0 ? '' : `?${pairs.map((pair) => pair.join('=')).join('&')}`))
  const pagePlace = filled(fc.constantFrom(...pages))
  const headText = hostileText.map((text) => text.replace(/[^\x20-\x7e]/g, '').slice(0, 2000))
  const heads = fc.oneof(
    { weight: 8, arbitrary: fc.constant({}) },
    {
      weight: 1,
      arbitrary: fc.dictionary(
        fc.constantFrom(
          ...['rsc', 'next-router-prefetch', 'next-router-segment-prefetch', 'next-url', 'range'],
          ...['if-none-match', 'accept', 'accept-language', 'cookie', 'x-forwarded-host', 'x-forwarded-for'],
          ...[
            'x-request-id',
            'x-middleware-subrequest',
            'x-action-forwarded',
            'sec-fetch-site',
            'authorization',
          ],
          ...['user-agent', 'x-nonce', 'content-encoding', 'x-bendwright-path', 'next-router-state-tree'],
        ),
        fc.oneof(headText, fc.constantFrom('1', '%5B%22%22%2C%7B%7D%5D', '/_tree', 'same-origin')),
        { maxKeys: 2 },
      ),
    },
  )
  const as = fc.constantFrom('signed out', 'expired', 'ended', 'link', 'elsewhere', ...roles, ...roles)
  const jsonText = fc.oneof(
    hostileText,
    hostileJson.map((value) => JSON.stringify(value) ?? ''),
    fc.constantFrom(...chunkTexts),
  )
  const base = { as, headers: heads, body: fc.constant<string | Uint8Array>(''), cut: fc.constant(false) }
  const form = fc
    .constantFrom(...forms)
    .chain(({ name, values }) => values.map((value) => ({ id: ids.get(name) ?? name, name, value })))
  const escaped = (value: unknown): unknown => {
    if (typeof value === 'string') return value.startsWith('$') ? `$${value}` : value
    if (Array.isArray(value)) return value.map(escaped)
    if (typeof value !== 'object' || value === null) return value
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, escaped(one)]))
  }
  const action = (id: string, mediaType: string) => ({ 'next-action': id, 'content-type': mediaType })
  const anyId = fc.oneof(
    { weight: 9, arbitrary: fc.constantFrom(...ids.values()) },
    { weight: 1, arbitrary: fc.constantFrom('toString', '__proto__', '0'.repeat(42), 'x', '00'.repeat(21)) },
  )
  const reference = fc.constantFrom(...references)
  const chunk = fc.oneof(
    fc.constantFrom(...chunkTexts),
    fc.array(fc.oneof(reference, hostileText), { maxLength: 3 }).map((list) => JSON.stringify(list)),
    hostileText,
  )
  const partName = fc.oneof(
    fc.constantFrom(
      '0',
      '1',
      '2',
      '_1_file',
      '_1_token',
      '_1_name',
      '__proto__',
      '$ACTION_KEY',
      '1_',
      '_1_',
      '',
    ),
    hostileText.map((text) => text.slice(0, 200)),
  )
  const file = fc.constantFrom(...contents)
  const parts: fc.Arbitrary<Part[]> = fc.array(
    fc.oneof(
      { weight: 3, arbitrary: fc.record({ name: partName, value: chunk }) },
      { weight: 1, arbitrary: fc.record({ name: partName, value: file, fileName: hostileText }) },
    ),
    { maxLength: 5 },
  )
  const textForm = fc
    .record({ form, ...base, address: pagePlace })
    .map(({ form: { id, value, name }, ...one }) => ({
      ...one,
      kind: `action ${name}`,
      method: 'POST',
      headers: action(id, 'text/plain;charset=UTF-8'),
      body: JSON.stringify([escaped(value)]) ?? '[]',
    }))
  const textAny = fc
    .record({
      ...base,
      id: anyId,
      address: pagePlace,
      text: jsonText,
      mediaType: fc.constantFrom(...mediaTypes),
    })
    .map(({ id, text, mediaType, ...one }) => ({
      ...one,
      kind: 'action with any body',
      method: 'POST',
      headers: { ...one.headers, ...action(id, mediaType) },
      body: text,
    }))
  const multipart = fc
    .record({
      ...base,
      id: anyId,
      address: pagePlace,
      root: fc.oneof(
        fc.array(fc.oneof(reference, hostileText), { maxLength: 3 }).map((list) => JSON.stringify(list)),
        fc.tuple(reference, reference).map(([a, b]) => JSON.stringify([{ [a]: b, then: b }, a])),
        chunk,
      ),
      parts,
      end: fc.constantFrom(undefined, undefined, undefined, '', '--', '\r\n'),
    })
    .map(({ id, root, parts, end, ...one }) => ({
      ...one,
      kind: 'action in parts',
      method: 'POST',
      headers: { ...one.headers, ...action(id, multipartType) },
      body: multipartBody([...parts, { name: '0', value: root }], end),
    }))
  /** A form posted before the scripts are there: the action's name stands in the form itself. */
  const plainForm = fc
    .record({
      ...base,
      id: anyId,
      address: pagePlace,
      state: chunk,
      parts,
      bound: fc.oneof(reference, fc.constant('$@1')),
      how: fc.constantFrom('id', 'reference', 'both', 'none', 'broken'),
      fields: fc.record({ login: hostileText, password: hostileText, token: tokens, name: hostileText }),
    })
    .map(({ id, state, parts, how, bound, fields, ...one }) => {
      const named: Part[] = []
      if (how === 'id' || how === 'both') named.push({ name: `$ACTION_ID_${id}`, value: '' })
      if (how !== 'id' && how !== 'none') {
        named.push(
          { name: '$ACTION_REF_1', value: '' },
          { name: '$ACTION_1:0', value: how === 'broken' ? state : JSON.stringify({ id, bound }) },
          { name: '$ACTION_1:1', value: how === 'broken' ? '["$2"]' : state },
          { name: '$ACTION_KEY', value: 'k1' },
        )
      }
      const typed = Object.entries(fields).map(([name, value]) => ({ name, value }))
      return {
        ...one,
        kind: 'plain form',
        method: 'POST',
        headers: { ...one.headers, 'content-type': multipartType },
        body: multipartBody([...named, ...typed, ...parts]),
      }
    })
  const upload = fc
    .record({
      ...base,
      id: fc.constantFrom('addFileAction', 'addCertificateAction').map((name) => ids.get(name) ?? name),
      address: pagePlace,
      row: fc.integer({ min: 1, max: 12 }).map(String),
      file,
      fileName: hostileText,
      mediaType: fc.constantFrom('application/pdf', 'image/png', 'text/html', 'image/svg+xml'),
      size: fc.integer({ min: 0, max: 400 }),
    })
    .map(({ id, row, file: small, fileName, mediaType, size, ...one }) => {
      const value = size === 0 ? tooMuch : size === 1 ? muchMore : small
      return {
        ...one,
        kind: 'upload',
        method: 'POST',
        headers: { ...one.headers, ...action(id, multipartType) },
        body: multipartBody([
          { name: '0', value: '["$K1"]' },
          { name: '_1_partId', value: row },
          { name: '_1_lotId', value: row },
          { name: '_1_file', value, fileName, mediaType },
        ]),
        cut: size > 395,
      }
    })
  const byLink = fc
    .record({
      ...base,
      link: fc.constantFrom(...links),
      token: tokens,
      id: fc.constantFrom('acceptQuoteAction', 'declineQuoteAction').map((name) => ids.get(name) ?? name),
      line: fc.constantFrom(...links.flatMap(({ lineIds }) => lineIds)),
      quantity: hostileText,
      name: hostileText,
    })
    .map(({ link: _link, token, id, line, quantity, name, ...one }) => ({
      ...one,
      kind: 'answer by link',
      method: 'POST',
      address: `/q/${token}`,
      headers: action(id, multipartType),
      body: multipartBody([
        { name: '0', value: '[null,"$K1"]' },
        { name: '_1_token', value: token },
        { name: `_1_quantity-${line}`, value: quantity },
        { name: '_1_name', value: name },
        { name: '_1_note', value: '' },
      ]),
    }))
  const page = fc.record({ ...base, place: pagePlace, query }).map(({ place, query: asked, ...one }) => ({
    ...one,
    kind: 'page',
    method: 'GET',
    address: place + asked,
  }))
  const route = fc
    .record({
      ...base,
      route: fc.constantFrom(...routes),
      place: fc.constant(''),
      query,
      other: fc.option(fc.constantFrom('GET', 'POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'HEAD'), {
        freq: 6,
      }),
      text: jsonText,
      form: form,
      mediaType: fc.constantFrom(...mediaTypes),
      id: inPlace,
      token: tokens,
    })
    .map(
      ({
        route: way,
        place: _place,
        query: asked,
        other,
        text,
        form: filledIn,
        mediaType,
        id,
        token,
        ...one
      }) => {
        const method = other ?? way.method
        const place = way.place.replace('[token]', token).replace(/\[[^\]]+\]/g, () => id)
        const near = text.length % 2 === 0 ? text : (JSON.stringify(filledIn.value) ?? '')
        return {
          ...one,
          kind: `route ${way.place}`,
          method,
          address: place + asked,
          headers: method === 'GET' ? one.headers : { ...one.headers, 'content-type': mediaType },
          body: method === 'GET' || method === 'HEAD' ? '' : near,
        }
      },
    )
  return fc.oneof(
    { weight: 5, arbitrary: page },
    { weight: 5, arbitrary: route },
    { weight: 8, arbitrary: textForm },
    { weight: 2, arbitrary: textAny },
    { weight: 5, arbitrary: multipart },
    { weight: 4, arbitrary: plainForm },
    { weight: 2, arbitrary: upload },
    { weight: 2, arbitrary: byLink },
  )
}
