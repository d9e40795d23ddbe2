/** Nodes and weights of the eight-point Gauss-Legendre rule on -1..1. Source: Abramowitz & Stegun, Table 25.4. */
const gaussNodes = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363]
const gaussWeights = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763]

export type Node = readonly [position: number, weight: number]

/** Nodes and weights for the integral from `low` to `high` in so many panels of eight points. */
export function gaussPanels(low: number, high: number, panelCount: number): Node[] {
  const nodes: Node[] = []
  const half = (high - low) / (2 * panelCount)
  for (let panel = 0; panel < panelCount; panel++) {
    const middle = low + (2 * panel + 1) * half
    gaussNodes.forEach((node, index) => {
      const weight = (gaussWeights[index] ?? 0) * half
      nodes.push([middle - node * half, weight], [middle + node * half, weight])
    })
  }
  return nodes
}
