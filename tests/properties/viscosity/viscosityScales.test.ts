import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fahrenheitToCelsius } from '../../../src/units.ts';
import { convertViscosity, type ViscosityScale } from '../../../src/viscosity/index.ts';
import { some } from '../../volume.ts';

/** Every scale: least and most reading, and the standard an error must name. */
const scales: [ViscosityScale, number, number | null, string][] = [
  ['SUS', 31.96, null, 'ASTM D2161'],
  ['SFS', 25.2, null, 'ASTM D2161'],
  ['redwood1', 34, null, 'IP 70'],
  ['redwood1-nbs', 34, null, 'NBS T210'],
  ['redwood2', 32.5, null, 'IP 70'],
  ['engler', 1.3, null, 'NBS T100'],
  ['engler-ubbelohde', 1.3, null, 'Ubbelohde'],
  ['engler-two-branch', 1.35, null, 'two-branch'],
  ['iso2431-3mm', 30, 100, 'ISO 2431'],
  ['iso2431-4mm', 30, 100, 'ISO 2431'],
  ['iso2431-5mm', 30, 100, 'ISO 2431'],
  ['iso2431-6mm', 30, 100, 'ISO 2431'],
  ['d1200-1', 55, 100, 'ASTM D1200'],
  ['d1200-2', 40, 100, 'ASTM D1200'],
  ['d1200-3', 20, 100, 'ASTM D1200'],
  ['d1200-4', 20, 100, 'ASTM D1200'],
  ['d1200-5', 20, 100, 'ASTM D1200'],
];
const greatest = 20000000;

const into = (scale: ViscosityScale, reading: number) => convertViscosity(reading, scale, 'mm2/s');
const outOf = (scale: ViscosityScale, mm2PerS: number) => convertViscosity(mm2PerS, 'mm2/s', scale);

/** The span of a scale in mm2/s. */
function span(scale: ViscosityScale): [number, number] {
  if (scale === 'mm2/s') return [0.001, greatest];
  const row = scales.find(([name]) => name === scale) as (typeof scales)[0];
  return [into(scale, row[1]), row[2] === null ? greatest : into(scale, row[2])];
}

describe.each(scales)('%s', (scale, least, most, standard) => {
  test('rises strictly over the whole range, both ways, and undoes itself within 1e-9', () => {
    const [low, high] = span(scale);
    let before = { v: 0, reading: 0 };
    for (let i = 0; i <= 2000; i += 1) {
      const v = Math.min(low * (high / low) ** (i / 2000), high);
      const reading = outOf(scale, v);
      expect(reading).toBeGreaterThan(before.reading);
      const again = into(scale, reading);
      expect(Math.abs(again / v - 1)).toBeLessThan(1e-9);
      expect(again).toBeGreaterThan(before.v);
      before = { v: again, reading };
    }
  });

  test('rises without a gap where its branches meet', () => {
    for (let reading = least; reading < Math.min(most ?? 400, 400); reading += reading / 500) {
      const [here, next] = [into(scale, reading), into(scale, reading * 1.0001)];
      expect(next).toBeGreaterThan(here);
      expect(next - here).toBeLessThan(0.01 * here);
      expect(outOf(scale, here) / reading).toBeCloseTo(1, 9);
    }
  });

  test('refuses what lies outside, naming range and standard', () => {
    const [low, high] = span(scale);
    const refusal = (act: () => number) => {
      try {
        return { got: act() };
      } catch (error) {
        const { code, parameter, message } = error as { code: string; parameter: string; message: string };
        return { code, parameter, message };
      }
    };
    const outside = [() => into(scale, least * 0.99), () => outOf(scale, low * 0.99), () => outOf(scale, high * 1.01)];
    if (most !== null) outside.push(() => into(scale, most * 1.01));
    for (const act of outside) {
      expect(refusal(act)).toMatchObject({ code: 'out_of_range', parameter: 'value' });
      const { message } = refusal(act) as { message: string };
      expect(message).toContain(standard);
      expect(message).toMatch(/in mm2\/s from [\d.]+ to [\d.]+/);
    }
  });
});

test('every pair of scales undoes itself, at one temperature', () => {
  const names: ViscosityScale[] = ['mm2/s', ...scales.map(([name]) => name)];
  const pair = fc.tuple(
    fc.constantFrom(...names),
    fc.constantFrom(...names),
    fc.double({ min: 0, max: 1, noNaN: true }),
  );
  let converted = 0;
  fc.assert(
    fc.property(pair, ([from, to, share]) => {
      const low = Math.max(span(from)[0], span(to)[0]) * 1.03;
      const high = Math.min(span(from)[1], span(to)[1]) * 0.97;
      fc.pre(low < high);
      const options = { celsius: 50 };
      const v = low * (high / low) ** share;
      const reading = convertViscosity(v, 'mm2/s', from, options);
      const there = convertViscosity(reading, from, to, options);
      const back = convertViscosity(there, to, from, options);
      converted += 1;
      expect(Math.abs(back / reading - 1)).toBeLessThan(1e-9);
      if (from === to) expect(there).toBe(reading);
      const direct = convertViscosity(v, 'mm2/s', to, options);
      expect(Math.abs(there / direct - 1)).toBeLessThan(1e-9);
    }),
    { numRuns: some(1000) },
  );
  expect(converted).toBeGreaterThan(some(900, 45));
});

test('the printed branches hold outside the part between the crossing and the printed change', () => {
  const printed = (scale: ViscosityScale, t: number) =>
    scale === 'redwood1'
      ? t <= 100
        ? 0.26 * t - 179 / t
        : 0.247 * t - 50 / t
      : scale === 'redwood2'
        ? t <= 90
          ? 2.458 * t - 100 / t
          : 2.447 * t
        : t <= 3.2
          ? 8 * t - 8.64 / t
          : 7.6 * t - 4 / t;
  const changes = { redwood1: [99.6, 100], redwood2: [90, 95.4], 'engler-two-branch': [3.2, 3.41] } as const;
  for (const scale of ['redwood1', 'redwood2', 'engler-two-branch'] as const) {
    const [from, to] = changes[scale];
    for (const share of [0.5, 0.9, 0.999])
      expect(into(scale, from * share)).toBeCloseTo(printed(scale, from * share), 9);
    for (const more of [1.001, 1.5, 20]) expect(into(scale, to * more)).toBeCloseTo(printed(scale, to * more), 8);
    for (const share of [0.01, 0.5, 0.99]) {
      const t = from + share * (to - from);
      expect(Math.abs(into(scale, t) / printed(scale, t) - 1)).toBeLessThan(0.008);
    }
  }
});

describe('the temperature', () => {
  test('left out is 100 °F for SUS, 50 °C where Furol takes part', () => {
    const at100F = fahrenheitToCelsius(100);
    expect(outOf('SUS', 46)).toBeCloseTo(convertViscosity(46, 'mm2/s', 'SUS', { celsius: at100F }), 9);
    expect(outOf('SFS', 300)).toBe(convertViscosity(300, 'mm2/s', 'SFS', { celsius: 50 }));
    const both = convertViscosity(1000, 'SUS', 'SFS');
    expect(both).toBe(convertViscosity(1000, 'SUS', 'SFS', { celsius: 50 }));
  });

  test('raises SUS by 0.0061 % for each °F', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 350, noNaN: true }), (fahrenheit) => {
        const seconds = convertViscosity(46, 'mm2/s', 'SUS', { celsius: fahrenheitToCelsius(fahrenheit) });
        expect(seconds / outOf('SUS', 46) - 1).toBeCloseTo(0.000061 * (fahrenheit - 100), 12);
      }),
    );
  });

  test.each([
    ['SUS', -18, '0 to 350 °F, ASTM D2161'],
    ['SUS', 177, '0 to 350 °F, ASTM D2161'],
    ['SFS', 40, '122 and 210 °F only (ASTM D2161)'],
    ['SFS', 100, '122 and 210 °F only (ASTM D2161)'],
  ] as const)('%s at %d °C is refused', (scale, celsius, message) => {
    const act = () => convertViscosity(300, 'mm2/s', scale, { celsius });
    expect(act).toThrow(expect.objectContaining({ code: 'out_of_range', parameter: 'options.celsius' }));
    expect(act).toThrow(message);
  });

  test('of 210 °F begins at 1.77 mm2/s, others at 1.81', () => {
    expect(convertViscosity(1.77, 'mm2/s', 'SUS', { celsius: 98.9 })).toBeCloseTo(32.03, 2);
    expect(() => convertViscosity(1.8, 'mm2/s', 'SUS', { celsius: 40 })).toThrow('1.81');
  });
});
