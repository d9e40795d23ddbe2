/** exact: geometry, statics, arithmetic. mechanics: beam plasticity, about ten percent. screening: a trial piece decides. */
export type Trust = 'exact' | 'mechanics' | 'screening'

export interface TraceInput {
  readonly symbol: string
  readonly value: number | string
  readonly unit: string
  /** The key of the step this value came out of; absent for what was entered or set. */
  readonly from?: string
}

/** One computed value: the formula in symbols, what was put in, what came out. */
export interface TraceStep {
  readonly key: string
  readonly formula: string
  readonly inputs: readonly TraceInput[]
  readonly value: number
  readonly unit: string
  readonly source: string
  readonly trust: Trust
}

/** Collects the steps of a computation while it runs. Passed as an optional argument: absent, it costs a test for undefined. */
export class Trace {
  readonly #steps = new Map<string, TraceStep>()

  add(step: TraceStep): void {
    this.#steps.set(step.key, step)
  }

  get(key: string): TraceStep | undefined {
    return this.#steps.get(key)
  }

  get keys(): readonly string[] {
    return [...this.#steps.keys()]
  }

  /** The step of this key after all the steps its values came from, each once, in the order they are needed. */
  chain(key: string): readonly TraceStep[] {
    const ordered: TraceStep[] = []
    const seen = new Set<string>()
    const visit = (wanted: string): void => {
      const step = this.#steps.get(wanted)
      if (!step || seen.has(wanted)) return
      seen.add(wanted)
      for (const input of step.inputs) if (input.from !== undefined) visit(input.from)
      ordered.push(step)
    }
    visit(key)
    return ordered
  }
}
