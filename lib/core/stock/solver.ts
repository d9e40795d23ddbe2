import loadHighs, { type Highs } from 'highs'

/** One whole-number unknown: what a unit costs, how many at most, and what it adds to each row. */
export interface SolverColumn {
  readonly cost: number
  readonly most: number
  readonly entries: readonly { readonly row: number; readonly value: number }[]
}

/** Least cost over whole-number columns with every row's sum between its limits. */
export interface SolverProblem {
  readonly columns: readonly SolverColumn[]
  readonly rows: readonly { readonly least: number; readonly most: number }[]
  /** A solution to begin from, so that a stopped search still has an answer. */
  readonly start?: readonly number[]
  /** Proof ends when no better cost by more than this can exist; just below 1 for whole-number costs. */
  readonly proofGap: number
}

export type SolverAnswer =
  | {
      readonly found: true
      readonly amounts: readonly number[]
      readonly proven: boolean
      /** No solution costs less than this. */
      readonly lowerBound: number
    }
  | { readonly found: false; readonly because: 'no-solution' | 'stopped-without-solution' }

/** The search stops after this many nodes, the same on every machine; the seconds are a last resort on a slow one. */
export const solverLimits = { nodes: 20_000, seconds: 20 } as const

let loading: Promise<Highs> | undefined

/**
 * Solves a whole-number linear problem to its proven least cost.
 *   branch and cut, from a given start, one thread, fixed seed
 * Source: HiGHS solver (Q. Huangfu & J. A. J. Hall, Mathematical Programming Computation 10 (2018) 119). Valid: up to some ten thousand columns.
 */
export async function solveWholeNumbers(problem: SolverProblem): Promise<SolverAnswer> {
  loading ??= loadHighs()
  const highs = await loading
  const { columns, rows } = problem
  const starts = new Int32Array(columns.length + 1)
  columns.forEach((column, index) => {
    starts[index + 1] = (starts[index] ?? 0) + column.entries.length
  })
  const entries = columns.flatMap((column) => column.entries)
  const model = highs.createModel({
    numCols: columns.length,
    numRows: rows.length,
    colCost: columns.map(({ cost }) => cost),
    colLower: new Float64Array(columns.length),
    colUpper: columns.map(({ most }) => most),
    rowLower: rows.map(({ least }) => least),
    rowUpper: rows.map(({ most }) => most),
    integrality: new Int32Array(columns.length).fill(highs.constants.variableType.integer),
    matrix: {
      format: 'csc',
      numCols: columns.length,
      numRows: rows.length,
      starts,
      indices: entries.map(({ row }) => row),
      values: entries.map(({ value }) => value),
    },
  })
  try {
    model.options.set({
      output_flag: false,
      random_seed: 0,
      mip_rel_gap: 0,
      mip_abs_gap: problem.proofGap,
      mip_max_nodes: solverLimits.nodes,
      time_limit: solverLimits.seconds,
    })
    if (problem.start) model.setSolution({ colValue: Float64Array.from(problem.start) })
    model.run()
    const status = model.getModelStatus()
    if (status === highs.constants.modelStatus.infeasible) return { found: false, because: 'no-solution' }
    const solved = model.info.get('primal_solution_status') === highs.constants.solutionStatus.feasible
    if (!solved) return { found: false, because: 'stopped-without-solution' }
    return {
      found: true,
      amounts: Array.from(model.getSolution().colValue, Math.round),
      proven: status === highs.constants.modelStatus.optimal,
      lowerBound: Number(model.info.get('mip_dual_bound')),
    }
  } finally {
    model.dispose()
  }
}
