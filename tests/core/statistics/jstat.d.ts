declare module 'jstat' {
  const jStat: {
    chisquare: { cdf(x: number, df: number): number }
    beta: { cdf(x: number, a: number, b: number): number }
    negbin: { pdf(k: number, r: number, p: number): number; cdf(k: number, r: number, p: number): number }
    noncentralt: { cdf(x: number, df: number, shift: number): number }
  }
  export default jStat
}
