export type Rule = Readonly<{ nodes: Float64Array; weights: Float64Array }>

function symmetric(half: readonly (readonly [node: number, weight: number])[]): Rule {
  const both = half.flatMap(([node, weight]) =>
    node === 0 ? [[0, weight] as const] : [[-node, weight] as const, [node, weight] as const],
  )
  return {
    nodes: Float64Array.from(both, ([node]) => node),
    weights: Float64Array.from(both, ([, weight]) => weight),
  }
}

/** Nodes and weights of the Gauss-Legendre rules of five and of eight points on -1..1. Source: Abramowitz & Stegun, Table 25.4. */
export const gaussFive = symmetric([
  [0, 0.5688888888888889],
  [0.538469310105683, 0.4786286704993665],
  [0.906179845938664, 0.2369268850561891],
])
export const gaussEight = symmetric([
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
])
