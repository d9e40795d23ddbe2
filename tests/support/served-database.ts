import pg from 'pg'

/** The key the launcher would have printed: opens /setup while there is no account. */
export function servedSetupKey(): string {
  return required('BENDWRIGHT_E2E_SETUP_KEY')
}

/** Rows of the database behind the app under test, to check what was really kept. */
export async function servedRows<Row extends pg.QueryResultRow>(
  sql: string,
  values: readonly unknown[] = [],
): Promise<Row[]> {
  return withClient(async (client) => (await client.query<Row>(sql, [...values])).rows)
}

/** Back to the moment after the first start: no shop, no account, no records. */
export async function emptyServedDatabase(): Promise<void> {
  await withClient(async (client) => {
    const tables = await client.query<{ name: string }>(
      `select quote_ident(tablename) as name from pg_tables where schemaname = 'public' and tablename <> '_prisma_migrations'`,
    )
    // The audit trail forbids emptying; only a superuser of the database can set that rule aside.
    await client.query('set session_replication_role = replica')
    await client.query(`truncate ${tables.rows.map(({ name }) => name).join(', ')} restart identity cascade`)
  })
}

async function withClient<Value>(work: (client: pg.Client) => Promise<Value>): Promise<Value> {
  const client = new pg.Client({ connectionString: required('BENDWRIGHT_E2E_DATABASE_URL') })
  await client.connect()
  try {
    return await work(client)
  } finally {
    await client.end()
  }
}

function required(name: string): string {
  const value = process.env[name]
  if (value === undefined) throw new Error(`${name} is not set: run these tests through Playwright`)
  return value
}
