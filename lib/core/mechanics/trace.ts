/** exact: geometry, statics, arithmetic. mechanics: beam plasticity, about ten percent. screening: a trial piece decides. */
export type Trust = 'exact' | 'mechanics' | 'screening'

/** What was put in: its symbol, value and unit, and the key of the step it came out of; no key for what was entered or set. */
export type TraceInput = readonly [symbol: string, value: number | string, unit?: string, from?: string]

/** One computed value: the formula in symbols, what was put in, what came out. */
export interface TraceStep {
  readonly formula: string
  readonly inputs: readonly TraceInput[]
  readonly value: number
  readonly unit: string
  readonly source: string
  readonly trust: Trust
}

export interface ChainLink extends TraceStep {
  readonly key: string
}

/**
 * Collects the steps of a computation while it runs. Passed as an optional argument and called as `trace?.step(...)`:
 * absent, not even its arguments are worked out. A key belongs to the scope it is used in; with a leading slash, to the whole.
 */
export class Trace {
  readonly #links: Map<string, ChainLink>
  readonly #scope: string

  constructor(links = new Map<string, ChainLink>(), scope = '') {
    this.#links = links
    this.#scope = scope
  }

  /** The same collection, keys taken to be of this scope, such as one bend. */
  within(scope: string): Trace {
    return new Trace(this.#links, `${scope}.`)
  }

  #whole(key: string): string {
    return key.startsWith('/') ? key.slice(1) : `${this.#scope}${key}`
  }

  step(key: string, step: TraceStep): void {
    const inputs = step.inputs.map(
      ([symbol, value, unit, from]): TraceInput =>
        from === undefined ? [symbol, value, unit] : [symbol, value, unit, this.#whole(from)],
    )
    const whole = this.#whole(key)
    this.#links.set(whole, { ...step, key: whole, inputs })
  }

  get keys(): readonly string[] {
    return [...this.#links.keys()]
  }

  /** The step of this key after all the steps its values came from, each once, as they are needed; nothing for an unknown key. */
  chain(key: string): readonly ChainLink[] {
    const ordered: ChainLink[] = []
    const seen = new Set<string>()
    const visit = (wanted: string): void => {
      const link = this.#links.get(wanted)
      if (!link || seen.has(wanted)) return
      seen.add(wanted)
      for (const [, , , from] of link.inputs) if (from !== undefined) visit(from)
      ordered.push(link)
    }
    visit(key)
    return ordered
  }
}
