const nodeCount = 112

type Source = (curvature: number) => { moment: number; slope: number }

/** A smooth rising moment over curvature, worked out when first asked at nodes that lie close where the section yields, joined by cubics. */
export class MomentTable {
  private readonly knee: number
  private readonly perStep: number
  private readonly step: number
  private readonly curvature = new Float64Array(nodeCount + 1)
  private readonly moment = new Float64Array(nodeCount + 1).fill(-1)
  private readonly slope = new Float64Array(nodeCount + 1)
  private readonly source: Source

  constructor(knee: number, mostCurvature: number, source: Source) {
    this.knee = knee
    this.source = source
    this.step = Math.log1p(mostCurvature / knee) / nodeCount
    this.perStep = 1 / this.step
  }

  private fill(node: number): void {
    const curvature = this.knee * Math.expm1(node * this.step)
    const at = this.source(curvature)
    this.curvature[node] = curvature
    this.moment[node] = at.moment
    this.slope[node] = at.slope
  }

  at(curvature: number): number {
    const node = (Math.log1p(curvature / this.knee) * this.perStep) | 0
    if (node >= nodeCount) return this.source(curvature).moment
    if ((this.moment[node] as number) < 0) this.fill(node)
    if ((this.moment[node + 1] as number) < 0) this.fill(node + 1)
    const low = this.curvature[node] as number
    const gap = (this.curvature[node + 1] as number) - low
    const part = (curvature - low) / gap
    const m0 = this.moment[node] as number
    const d0 = (this.slope[node] as number) * gap
    const d1 = (this.slope[node + 1] as number) * gap
    const rise = (this.moment[node + 1] as number) - m0
    return m0 + part * (d0 + part * (3 * rise - 2 * d0 - d1 + part * (d0 + d1 - 2 * rise)))
  }
}
