import pg from 'pg'

/**
 * One sum a table over every value of every row: two of them are equal only where no row was added, changed or lost.
 * When a session was last seen does not count: the session's own reading moves it, every ten minutes.
 */
export async function rowSums(url: string): Promise<Record<string, string>> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    const { rows } = await client.query<{ name: string }>(
      `select tablename as name from pg_tables where schemaname = 'public' order by 1`,
    )
    const each = rows.map(
      ({ name }) =>
        `select '${name}' as name, count(*) || ':' || coalesce(md5(string_agg((to_jsonb(r) - '${name === 'Session' ? 'lastSeenAt' : ''}')::text, '|' order by (to_jsonb(r) - '${name === 'Session' ? 'lastSeenAt' : ''}')::text)), '') as sum from "${name}" r`,
    )
    const answer = await client.query<{ name: string; sum: string }>(each.join(' union all '))
    return Object.fromEntries(answer.rows.map(({ name, sum }) => [name, sum]))
  } finally {
    await client.end()
  }
}
