import { db } from '@/lib/server/db'

/**
 * From here on every line for the history is refused by the database. A write adds its line last, so that it fails
 * with everything else already done; what is then found in the tables is what a failure half-way leaves behind.
 */
export async function refuseHistory(): Promise<void> {
  await db.$executeRawUnsafe(
    `create function no_history() returns trigger language plpgsql as $$ begin raise exception 'history is refused'; end $$`,
  )
  await db.$executeRawUnsafe(
    'create trigger no_history before insert on "AuditEntry" for each row execute function no_history()',
  )
}
