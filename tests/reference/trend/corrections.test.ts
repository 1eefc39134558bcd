/** The published corrections of the Mann-Kendall test against printed results of two public implementations. */
import { describe, expect, test } from 'vitest';
import { mannKendall } from '../../../src/trend/mannKendall.ts';
import { senSlope } from '../../../src/trend/senSlope.ts';
import reference from './corrections.json' with { type: 'json' };

const options: Record<string, Parameters<typeof mannKendall>[1]> = {
  'nile-hamed-rao-3-lags': { correction: 'hamed_rao', lags: 3 },
  'nile-yue-wang-all-lags': { correction: 'yue_wang' },
  'nile-trend-free': { correction: 'trend_free_pre_whitening' },
  'rain-mk': {},
  'rain-hamed-rao-3': { correction: 'hamed_rao', lags: 3 },
  'rain-yue-wang': { correction: 'yue_wang' },
  'rain-yue-wang-1': { correction: 'yue_wang', lags: 1 },
  'rain-pre-whitened': { correction: 'pre_whitening' },
  'rain-trend-free': { correction: 'trend_free_pre_whitening' },
};

describe('corrections of the Mann-Kendall test', () => {
  test.each(reference.cases)('$id ($source.document, $source.place)', ({ id, series, expected, tolerance }) => {
    const { values } = reference.series[series as keyof typeof reference.series];
    const found = mannKendall(values, options[id]);
    const plain = mannKendall(values);
    const near = (actual: number, wanted: number | undefined, within: number) => {
      if (wanted === undefined) return;
      expect(Math.abs(actual / wanted - 1), `${actual} for ${wanted}`).toBeLessThanOrEqual(within);
    };
    const wanted: Partial<Record<'s' | 'variance' | 'z' | 'p' | 'tau' | 'factor' | 'slope', number>> = expected;
    for (const name of ['s', 'variance', 'z', 'tau'] as const) near(found[name], wanted[name], tolerance.relative);
    near(found.p, wanted.p, 'p' in tolerance ? tolerance.p : tolerance.relative);
    near(found.variance / plain.variance, wanted.factor, tolerance.relative);
    if (id === 'rain-mk') {
      const times = values.map((_value, i) => i);
      near(senSlope(times, values).slope, wanted.slope, tolerance.relative);
    }
    expect(found.independence).toBe(options[id]?.correction ?? 'assumed');
  });
});
