/** What of a set-up or part makes the bend impossible to work out. */
export type ImpossibleAt = 'strap' | 'span' | 'angle' | 'radius' | 'die'

/** The model has no answer: what stands in the way, in physical words. */
export class Impossible extends RangeError {
  readonly at: ImpossibleAt
  readonly met: string
  readonly allowed: string

  constructor(at: ImpossibleAt, met: string, allowed: string) {
    super(`${met}; ${allowed}`)
    this.name = 'Impossible'
    this.at = at
    this.met = met
    this.allowed = allowed
  }
}
