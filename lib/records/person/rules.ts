export type RoleName = 'owner' | 'office' | 'bench'

/** How long an invitation or a reset link can be used. */
export const linkDays = 7

/** A link that somebody asked for by mail, without the owner: good for less long. */
export const mailedLinkMinutes = 60

/** So many links an hour are mailed at one name's word, and so many at one address's. */
export const mailedLinksAnHour = { account: 3, address: 10 } as const

export const roleWords: Readonly<Record<RoleName, { label: string; meaning: string }>> = {
  owner: { label: 'Owner', meaning: 'Everything: prices, rates, people, the audit list' },
  office: {
    label: 'Office',
    meaning: 'Parts, prices, quotes, jobs, stock; not rates, people or the audit list',
  },
  bench: { label: 'Bench', meaning: 'What it takes to make a part; no price anywhere' },
}

/** What stands in a mail with a link: who sends it, what it is for, and what to do when nobody asked for it. */
export function linkMail(of: {
  shopName: string
  personName: string
  login: string
  address: string
  why: 'invited' | 'reset-by-owner' | 'forgotten'
}): { subject: string; text: string } {
  const shopName = of.shopName.replace(/\s+/g, ' ')
  const invited = of.why === 'invited'
  const good = of.why === 'forgotten' ? `${mailedLinkMinutes} minutes` : `${linkDays} days`
  const reason = {
    invited: `You have an account at ${shopName}. Your sign-in name is ${of.login}.`,
    'reset-by-owner': `The owner of ${shopName} has made you a link to set a new password.`,
    forgotten: `Somebody, you we hope, asked for a new password for ${of.login} at ${shopName}.`,
  }[of.why]
  return {
    subject: invited ? `Your account at ${shopName}` : `A new password for ${shopName}`,
    text: [
      `${of.personName},`,
      reason,
      `Set ${invited ? 'your' : 'a new'} password here:\n${of.address}`,
      `The link works once and for ${good}. Whoever has it can use it: do not pass this mail on.`,
      invited ? '' : 'If you did not ask for it, do nothing: the old password holds.',
    ]
      .filter(Boolean)
      .join('\n\n'),
  }
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
