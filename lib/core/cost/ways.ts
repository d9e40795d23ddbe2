export const wayKeys = [
  'hollow',
  'sand',
  'lowMelt',
  'lowMeltStrap',
  't4ThenAged',
  'annealedThenSolutionAged',
  'mitredWelded',
  'outside',
] as const

/** The possible ways of making a part, as the money side names them. */
export type WayKey = (typeof wayKeys)[number]

/** The plain name of each way. */
export const wayNames: Readonly<Record<WayKey, string>> = {
  hollow: 'Bent hollow',
  sand: 'Packed with sand',
  lowMelt: 'Filled with low-melt alloy',
  lowMeltStrap: 'Low-melt alloy and backing strap',
  t4ThenAged: 'Bent in T4, then aged',
  annealedThenSolutionAged: 'Annealed, bent, solution treated and aged',
  mitredWelded: 'Cut, mitred and welded from straights',
  outside: 'Sent out to a bender',
}

export type Support = 'hollow' | 'sand' | 'lowMelt'

/** What holds the bore and the tension face while a way bends; a way that heat treats is told by the caller. */
export function waySupport(
  way: WayKey,
  chosen: { readonly support?: Support; readonly strap?: boolean } = {},
): { support: Support; strap: boolean } {
  switch (way) {
    case 'sand':
      return { support: 'sand', strap: chosen.strap ?? false }
    case 'lowMelt':
      return { support: 'lowMelt', strap: false }
    case 'lowMeltStrap':
      return { support: 'lowMelt', strap: true }
    case 't4ThenAged':
    case 'annealedThenSolutionAged':
      return { support: chosen.support ?? 'lowMelt', strap: chosen.strap ?? false }
    case 'hollow':
      return { support: 'hollow', strap: chosen.strap ?? false }
    case 'mitredWelded':
    case 'outside':
      return { support: 'hollow', strap: false }
  }
}
