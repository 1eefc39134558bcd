/**
 * The published corrections of the Mann-Kendall test for readings that depend on each other. None is the default:
 * docs/rates.md shows how often each calls a trend where there is none.
 *
 * Sources: K. H. Hamed, A. R. Rao, J. Hydrol. 204 (1998) 182; S. Yue, C. Y. Wang, Water Resour. Manage. 18 (2004) 201;
 * H. von Storch (1995) and S. Yue, P. Pilon, B. Phinney, G. Cavadias, Hydrol. Process. 16 (2002) 1807 (pre-whitening).
 */
import { doubles, type NumberList } from '../numeric/lists.ts';
import { centredRanks } from './dependence/correlations.ts';

/** Autocorrelations at lags 0 to `lags`; 0 beyond lag 0 where the list does not vary. */
function autocorrelations(list: NumberList, lags: number): NumberList {
  const n = list.length;
  let sum = 0;
  for (let i = 0; i < n; i += 1) sum += list[i] as number;
  const mean = sum / n;
  let whole = 0;
  for (let i = 0; i < n; i += 1) whole += ((list[i] as number) - mean) * ((list[i] as number) - mean);
  const result = doubles(lags + 1);
  result[0] = 1;
  for (let lag = 1; lag <= lags && whole > 0; lag += 1) {
    let part = 0;
    for (let i = lag; i < n; i += 1) part += ((list[i] as number) - mean) * ((list[i - lag] as number) - mean);
    result[lag] = part / whole;
  }
  return result;
}

function withoutTrend(values: NumberList, slope: number): NumberList {
  const rest = doubles(values.length);
  for (let i = 0; i < values.length; i += 1) rest[i] = (values[i] as number) - slope * (i + 1);
  return rest;
}

/**
 * What the variance of S is multiplied by: correlations of the ranks without trend, those that are significant at 5 %.
 */
export function hamedRaoFactor(values: NumberList, slope: number, lags: number): number {
  const n = values.length;
  const last = Math.min(lags, n - 3);
  const correlations = autocorrelations(centredRanks(withoutTrend(values, slope)), last);
  const limit = 1.959963984540054 / Math.sqrt(n);
  let sum = 0;
  for (let lag = 1; lag <= last; lag += 1) {
    const correlation = correlations[lag] as number;
    if (Math.abs(correlation) > limit) sum += (n - lag) * (n - lag - 1) * (n - lag - 2) * correlation;
  }
  return 1 + (2 * sum) / (n * (n - 1) * (n - 2));
}

/** What the variance of S is multiplied by: all correlations of the values without trend. */
export function yueWangFactor(values: NumberList, slope: number, lags: number): number {
  const n = values.length;
  const correlations = autocorrelations(withoutTrend(values, slope), lags);
  let sum = 0;
  for (let lag = 1; lag <= lags; lag += 1) sum += (1 - lag / n) * (correlations[lag] as number);
  return 1 + 2 * sum;
}

/** Each value less the first correlation times the one before it. */
export function preWhitened(values: NumberList): number[] {
  const correlation = autocorrelations(values, 1)[1] as number;
  const result: number[] = [];
  for (let i = 1; i < values.length; i += 1)
    result.push((values[i] as number) - correlation * (values[i - 1] as number));
  return result;
}

/** The same on values without their trend, which is put back. */
export function trendFreePreWhitened(values: NumberList, slope: number): number[] {
  return preWhitened(withoutTrend(values, slope)).map((value, i) => value + slope * (i + 1));
}
