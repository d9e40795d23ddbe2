import { defineConfig } from 'prisma/config'

// These three run entirely in WebAssembly, but the command line insists on fetching the native engine first. Pointed
// at a file that always exists it fetches nothing, so a machine without that download host can generate the client.
if (['generate', 'validate', 'format'].includes(process.argv[2] ?? '')) {
  process.env.PRISMA_SCHEMA_ENGINE_BINARY ??= process.execPath
}
process.env.CHECKPOINT_DISABLE ??= '1'

export default defineConfig({
  schema: 'prisma/schema.prisma',
  migrations: { path: 'prisma/migrations' },
  datasource: { url: process.env.DATABASE_URL ?? 'postgresql://not-needed-to-generate' },
})
