export type Group = { code: number; value: string }
export type Entity = { type: string; groups: Group[] }

/** Reads groups as the DXF Reference has them: two lines each, code then value. */
export function readGroups(file: string): Group[] {
  const lines = file.split('\r\n')
  if (lines.pop() !== '' || lines.length % 2 !== 0) throw new Error('not whole groups of two lines')
  return Array.from({ length: lines.length / 2 }, (_, index) => {
    const code = lines[2 * index] ?? ''
    if (!/^ *\d+$/.test(code)) throw new Error(`“${code}” is no group code`)
    return { code: Number(code), value: lines[2 * index + 1] ?? '' }
  })
}

/** What stands between one section's name and its end, by the groups 0 that begin each thing. */
export function readSection(file: string, section: string): Entity[] {
  const groups = readGroups(file)
  const start = groups.findIndex(
    ({ code, value }, index) => code === 2 && value === section && groups[index - 1]?.value === 'SECTION',
  )
  const things: Entity[] = []
  for (const group of groups.slice(start + 1)) {
    if (group.code === 0 && group.value === 'ENDSEC') break
    if (group.code === 0) things.push({ type: group.value, groups: [] })
    else things.at(-1)?.groups.push(group)
  }
  return things
}

export const wordOf = (thing: Entity | undefined, code: number): string | undefined =>
  thing?.groups.find((group) => group.code === code)?.value

export const numberOf = (thing: Entity | undefined, code: number): number =>
  Number(wordOf(thing, code) ?? Number.NaN)

export const pointOf = (thing: Entity | undefined, code: number): number[] => [
  numberOf(thing, code),
  numberOf(thing, code + 10),
  numberOf(thing, code + 20),
]
