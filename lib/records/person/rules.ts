export type RoleName = 'owner' | 'office' | 'bench'

/** How long an invitation or a reset link can be used. */
export const linkDays = 7

export const roleWords: Readonly<Record<RoleName, { label: string; meaning: string }>> = {
  owner: { label: 'Owner', meaning: 'Everything: prices, rates, people, the audit list' },
  office: {
    label: 'Office',
    meaning: 'Parts, prices, quotes, jobs, stock; not rates, people or the audit list',
  },
  bench: { label: 'Bench', meaning: 'What it takes to make a part; no price anywhere' },
}

/** A shop without an owner could never be put right again. Counts the other owners who can still sign in. */
export function wouldLeaveNoOwner(
  person: { role: RoleName; active: boolean },
  after: { role: RoleName; active: boolean },
  otherActiveOwnerCount: number,
): boolean {
  const isOwner = person.role === 'owner' && person.active
  const staysOwner = after.role === 'owner' && after.active
  return isOwner && !staysOwner && otherActiveOwnerCount === 0
}
