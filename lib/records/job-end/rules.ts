export type JobStanding = {
  pieces: readonly { number: number; status: 'open' | 'released' | 'scrapped' }[]
  faults: readonly { number: string; disposition: string | null }[]
  runningClocks: readonly { operation: string; by: string }[]
}

/** What is left undone on a job: it closes past these only with a reason. */
export function undone(job: JobStanding): string[] {
  const open = job.pieces.filter(({ status }) => status === 'open').map(({ number }) => number)
  return [
    ...(open.length > 0
      ? [
          `${open.length === 1 ? 'Piece' : 'Pieces'} ${numbersText(open)} ${open.length === 1 ? 'is' : 'are'} neither released nor scrapped.`,
        ]
      : []),
    ...job.faults
      .filter(({ disposition }) => disposition === null)
      .map(({ number }) => `Nobody has decided about ${number}.`),
    ...job.runningClocks.map(({ operation, by }) => `The clock of ${by} runs on “${operation}”.`),
  ]
}

/** Numbers as people write them: '1–4, 7'. */
export function numbersText(numbers: readonly number[]): string {
  const sorted = [...new Set(numbers)].sort((one, other) => one - other)
  const runs: [number, number][] = []
  for (const number of sorted) {
    const last = runs.at(-1)
    if (last && number === last[1] + 1) last[1] = number
    else runs.push([number, number])
  }
  return runs
    .flatMap(([from, to]) =>
      to === from ? [String(from)] : to === from + 1 ? [String(from), String(to)] : [`${from}–${to}`],
    )
    .join(', ')
}
