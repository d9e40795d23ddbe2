const nodeCount = 112

/** A smooth rising moment over curvature, worked out at nodes that lie close where the section yields, and joined by cubics. */
export class MomentTable {
  private readonly knee: number
  private readonly step: number
  private readonly moment = new Float64Array(nodeCount + 1)
  private readonly slope = new Float64Array(nodeCount + 1)
  private readonly source: (curvature: number) => { moment: number; slope: number }

  constructor(
    knee: number,
    mostCurvature: number,
    source: (curvature: number) => { moment: number; slope: number },
  ) {
    this.knee = knee
    this.source = source
    this.step = Math.log1p(mostCurvature / knee) / nodeCount
    for (let node = 0; node <= nodeCount; node++) {
      const at = source(knee * Math.expm1(node * this.step))
      this.moment[node] = at.moment
      this.slope[node] = at.slope
    }
  }

  at(curvature: number): number {
    const place = Math.log1p(curvature / this.knee) / this.step
    if (place >= nodeCount) return this.source(curvature).moment
    const node = place | 0
    const low = this.knee * Math.expm1(node * this.step)
    const gap = (low + this.knee) * Math.expm1(this.step)
    const part = (curvature - low) / gap
    const m0 = this.moment[node] as number
    const d0 = (this.slope[node] as number) * gap
    const d1 = (this.slope[node + 1] as number) * gap
    const rise = (this.moment[node + 1] as number) - m0
    return m0 + part * (d0 + part * (3 * rise - 2 * d0 - d1 + part * (d0 + d1 - 2 * rise)))
  }
}
