import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { temporaryFolder } from '@/tests/support/temporary-folder'

const root = path.resolve(import.meta.dirname, '../../..')
const folder = temporaryFolder()

const rail = {
  tube: { shape: 'round', widthMm: 33.7, heightMm: 33.7, wallMm: 3 },
  material: { id: '6061-T6' },
  bends: [{ straightBeforeMm: 300, angleDeg: 25, centrelineRadiusMm: 300, rotationDeg: 0 }],
  straightAfterMm: 300,
  method: { support: 'sand' },
  press: { capacityKn: 150, supportSpanMm: 400, supportNoseRadiusMm: 15 },
}

function spec(argument: string, input?: string) {
  return spawnSync(process.execPath, [path.join(root, 'lib/launch/spec.mjs'), argument], {
    cwd: folder,
    env: { ...process.env, INIT_CWD: folder },
    encoding: 'utf8',
    ...(input !== undefined && { input }),
  })
}

function written(name: string, text: string): string {
  fs.writeFileSync(path.join(folder, name), text)
  return name
}

describe('the spec command', () => {
  it('prints the answer as JSON and nothing else', () => {
    const ran = spec(written('rail.json', JSON.stringify(rail)))
    expect([ran.status, ran.stderr]).toEqual([0, ''])
    expect(JSON.parse(ran.stdout)).toMatchObject({ bends: [{ wantedAngleDeg: 25 }] })
  })
  it('reads standard input for a dash', () => {
    const ran = spec('-', JSON.stringify(rail))
    expect(ran.status).toBe(0)
    expect(ran.stdout).toBe(spec(written('rail.json', JSON.stringify(rail))).stdout)
  })
  it('ends with 2 and one line a fault for bad input', () => {
    const ran = spec('-', JSON.stringify({ ...rail, straightAfterMm: -1, colour: 'red' }))
    expect([ran.status, ran.stdout]).toEqual([2, ''])
    expect(ran.stderr.trim().split('\n').sort()).toEqual([
      expect.stringMatching(/^colour: an unknown field; /),
      expect.stringMatching(/^straightAfterMm: -1; .*0 or more/),
    ])
  })
  it.each([
    ['no JSON', '{"tube":', /JSON/],
    ['an empty file', '', /JSON/],
  ])('ends with 2 and says why for %s', (_, text, why) => {
    const ran = spec(written('bad.json', text))
    expect([ran.status, ran.stdout]).toEqual([2, ''])
    expect(ran.stderr).toMatch(why)
  })
  it('ends with 2 for a file that is not there', () => {
    const ran = spec('missing.json')
    expect([ran.status, ran.stdout]).toEqual([2, ''])
    expect(ran.stderr).toMatch(/missing\.json: there is no such file/)
  })
})
