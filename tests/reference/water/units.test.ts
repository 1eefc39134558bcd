/** Water content from one ppm to another, by hand. */
import { expect, test } from 'vitest';
import { mgPerKgOfMgPerL, mgPerKgOfVolumePpm, mgPerLOfMgPerKg, volumePpmOfMgPerKg } from '../../../src/water/index.ts';

test('150 mg in a litre of 0.87 kg are 172.414 mg/kg', () => {
  expect(mgPerKgOfMgPerL(150, 870)).toBeCloseTo(172.4138, 4);
  expect(mgPerLOfMgPerKg(172.4138, 870)).toBeCloseTo(150, 4);
});

test('150 µL in a litre weigh 149.73 mg, in 0.87 kg of oil 172.103 mg/kg', () => {
  expect(mgPerKgOfVolumePpm(150, 870)).toBeCloseTo(172.1034, 4);
  expect(volumePpmOfMgPerKg(172.1034, 870)).toBeCloseTo(150, 4);
});

test('no water is none', () => {
  for (const of of [mgPerKgOfMgPerL, mgPerLOfMgPerKg, mgPerKgOfVolumePpm, volumePpmOfMgPerKg]) {
    expect(of(0, 870)).toBe(0);
    expect(() => of(150, 0.87)).toThrow(expect.objectContaining({ code: 'out_of_range', parameter: 'kgPerM3' }));
    expect(() => of(-1, 870)).toThrow(expect.objectContaining({ code: 'out_of_range' }));
    expect(() => of('150' as never, 870)).toThrow(expect.objectContaining({ code: 'wrong_type' }));
  }
});
