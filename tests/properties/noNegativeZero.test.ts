/** No zero below zero comes out, and no bound with the digits of its rounding. */
import { expect, test } from 'vitest';
import { coincidenceLoss, correctCoincidence, microscopeCount, undilute } from '../../src/counts/index.ts';
import { isMotescaleError } from '../../src/errors.ts';
import { toCsv } from '../../src/report/index.ts';
import { flowForPressure } from '../../src/sampling/index.ts';

const models = ['paralyzable', 'non_paralyzable', 'wales_wilson', 'princen_kwolek'] as const;

test.each(models)('coincidence by %s of none is none', (model) => {
  for (const none of [0, -0]) {
    expect(correctCoincidence(none, { sensingVolumeMl: 5e-6, model })).toEqual({ perMl: 0, loss: 0 });
    expect(coincidenceLoss(none, { sensingVolumeMl: 5e-6, model })).toEqual({ observedPerMl: 0, loss: 0 });
  }
});

test('a cell of a table', () => {
  expect(toCsv({ header: ['a', 'b'], rows: [[-0, -0.5]] })).toBe('a,b\r\n0,-0.5\r\n');
});

const expectedOf = (call: () => unknown): string => {
  try {
    call();
  } catch (error) {
    if (isMotescaleError(error)) return error.expected;
  }
  return 'nothing refused';
};

test('bounds in errors', () => {
  const told = expectedOf(() => coincidenceLoss(3e5, { sensingVolumeMl: 5e-6, model: 'princen_kwolek' }));
  expect(told).toMatch(/^at most 200000 per mL, where the model ends: dilute a bottle sample, or take a sensor/);
  const loss = expectedOf(() => correctCoincidence(1e9, { sensingVolumeMl: 3e-6, model: 'paralyzable' }));
  expect(loss).toMatch(/^at most 122626 per mL/);
  const sample = { mixturePerMl: 10, sampleMl: 1, diluentMl: 0.9, diluentPerMl: 30 };
  expect(expectedOf(() => undilute(sample))).toMatch(/^at most 21\.11: /);
  const fields = { counted: 5, fields: 8, fieldMm2: 1.8, effectiveMm2: 10, volumeMl: 100 };
  expect(expectedOf(() => microscopeCount(fields))).toMatch(/^at most 5\.555: /);
  const line = { segments: [{ metres: 3, boreMm: 4, riseMetres: 1 }], fluid: { mm2PerS: 46, kgPerM3: 870 } };
  expect(expectedOf(() => flowForPressure({ ...line, kPa: 2 }))).toMatch(/^at least 8\.53 kPa, below which/);
});
