import { normalQuantile } from '@/lib/core/statistics/normal'

/** A time as a log-normal quantity: half of all times are below the median. Minutes. */
export interface TimeBelief {
  readonly medianMinutes: number
  readonly logSd: number
  readonly meanMinutes: number
  readonly p10Minutes: number
  readonly p90Minutes: number
  readonly loggedCount: number
  readonly text: string
}

/** How many logged times the shop's own low, likely and high are worth. */
export const priorTimes = 2

/**
 * An operation's time after logged minutes.
 *   on ln t: m = (n0 ln likely + sum ln t) / (n0 + n);
 *   s^2 = (n0 s0^2 + sum (ln t - mean)^2 + n0 n / (n0 + n) (mean - ln likely)^2) / (n0 + n),  s0 = ln(high / low) / (2 * 1.2816), n0 = 2
 * Source: normal with unknown mean and variance, A. Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.3, on logarithms; low and high taken
 * as 10th and 90th percentile. Valid: times above zero, one kind of job.
 */
export function loggedTime(
  prior: { readonly low: number; readonly likely: number; readonly high: number },
  loggedMinutes: readonly number[],
): TimeBelief {
  if (!(prior.low > 0 && prior.low <= prior.likely && prior.likely <= prior.high)) {
    throw new RangeError('A time to learn from has low, likely and high above zero and going upwards.')
  }
  if (loggedMinutes.some((minutes) => !(minutes > 0))) {
    throw new RangeError('Logged minutes are above zero.')
  }
  const logs = loggedMinutes.map(Math.log)
  const count = logs.length
  const priorLog = Math.log(prior.likely)
  const priorSd = Math.log(prior.high / prior.low) / (2 * normalQuantile(0.9))
  const meanLog = count === 0 ? priorLog : logs.reduce((sum, log) => sum + log, 0) / count
  const squares = logs.reduce((sum, log) => sum + (log - meanLog) ** 2, 0)
  const weight = priorTimes + count
  const middle = (priorTimes * priorLog + count * meanLog) / weight
  const shift = ((priorTimes * count) / weight) * (meanLog - priorLog) ** 2
  const logSd = Math.sqrt((priorTimes * priorSd ** 2 + squares + shift) / weight)
  const medianMinutes = Math.exp(middle)
  return {
    medianMinutes,
    logSd,
    meanMinutes: medianMinutes * Math.exp(logSd ** 2 / 2),
    p10Minutes: medianMinutes * Math.exp(logSd * normalQuantile(0.1)),
    p90Minutes: medianMinutes * Math.exp(logSd * normalQuantile(0.9)),
    loggedCount: count,
    text:
      count === 0
        ? 'the shop\u2019s setting, nothing logged yet'
        : `${count} logged ${count === 1 ? 'time' : 'times'}`,
  }
}
