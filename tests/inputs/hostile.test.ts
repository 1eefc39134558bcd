/** Input that is made to harm: what is long, what changes lines and terminals, what is not whole. */
import { expect, test } from 'vitest';
import { formatCode, iso4406, parseCode } from '../../src/codes/index.ts';
import { isMotescaleError, problemsOf } from '../../src/errors.ts';
import { roundHalfEven } from '../../src/exact/index.ts';
import { combineFiltersBySize } from '../../src/filtration/index.ts';
import { advanceUnit, prepareMonitor, startUnit } from '../../src/monitor/index.ts';
import { periodFigures, periodSummary } from '../../src/report/index.ts';
import { parseAcceptanceReading } from '../../src/schema/index.ts';
import { ubbelohdeWaltherM, viscosityLine } from '../../src/viscosity/index.ts';
import { solubilityLine } from '../../src/water/index.ts';

function errorOf(call: () => unknown) {
  try {
    call();
  } catch (error) {
    if (isMotescaleError(error)) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}

test('long lists are judged, not fallen over', () => {
  const points = Array.from({ length: 150_000 }, (_one, i) => ({ celsius: 20 + (i % 60), mm2PerS: 200 - (i % 60) }));
  expect(viscosityLine(points).b).toBeGreaterThan(0);
  expect(ubbelohdeWaltherM(points)).toBeGreaterThan(0);
  const wet = points.map(({ celsius }) => ({ celsius, mgPerKg: 10 ** (5 - 1000 / (celsius + 273.15)) }));
  expect(solubilityLine(wet).b).toBeCloseTo(1000, 3);
  const figures = periodFigures([{ time: 0, celsius: 40 }]);
  const { readings = 1, figures: [one] = [] } = figures.measured ?? {};
  const measured = { readings, figures: Array.from({ length: 256_000 }, () => one as NonNullable<typeof one>) };
  expect(periodSummary({ ...figures, measured }).length).toBeGreaterThan(256_000);
});

test('each list of ratios is looked at once, not once for each size', () => {
  let looks = 0;
  const list = new Proxy(new Array(300).fill(2), {
    has: (all, name) => {
      looks += 1;
      return name in all;
    },
  });
  expect(combineFiltersBySize({ series: [list, list] })).toEqual(new Array(300).fill(4));
  expect(looks).toBeLessThan(2 * 301);
});

test('a text of digits too long for a number is refused by its length', () => {
  expect(errorOf(() => roundHalfEven(`${'1'.repeat(1_000_000)}x`, { decimals: 1 })).code).toBe('not_a_number');
});

test('a list with a length and nothing in it is refused by its length', () => {
  const sizes: number[] = [];
  sizes.length = 2 ** 32 - 1;
  const reading = { time: 1795593600000, litres: 1, counts: { sizing: 'iso11171', sizes, perMl: [1] } };
  expect(problemsOf(errorOf(() => parseAcceptanceReading(reading)))[0]).toMatchObject({
    path: ['counts', 'sizes'],
    code: 'out_of_range',
  });
});

const evil = 'x\r\n2026 ALL WELL\u001b[2J\u202e\u2028\ud800';
const shown = 'x\\u000d\\u000a2026 ALL WELL\\u001b[2J\\u202e\\u2028\\ud800';

test('what came stands in an event on one line', () => {
  const prepared = prepareMonitor({ codes: [] });
  const record = startUnit(prepared, { unit: 'gate \u{1f6a2} 水' });
  const payload = { time: 0, [evil]: 1, mode: 7 } as never;
  const [event] = advanceUnit(prepared, record, { seq: 1, payload }).events;
  expect(JSON.stringify(event)).toContain(JSON.stringify(shown).slice(1, -1));
  expect(Object.values(event as object).join('')).not.toContain('\n');
});

test.each(['gate\ud800', 'gate\udc00', 'a\nb', 'a\u001bb', 'a\u202eb'])('no unit is named %j', (unit) => {
  const error = errorOf(() => startUnit(prepareMonitor({ codes: [] }), { unit }));
  expect(error).toMatchObject({ code: 'out_of_range', parameter: 'unit.unit' });
});

test('an error cuts a long name short, and shows no version that is none', () => {
  const code = parseCode(iso4406, '18/16/13');
  const table = { ...iso4406, id: 'x'.repeat(30_000) };
  expect(errorOf(() => formatCode(table, code)).message.length).toBeLessThan(400);
  const prepared = prepareMonitor({ codes: [] });
  const named = { ...prepared, configuration: 'x'.repeat(30_000) };
  const wrong = () => startUnit(named, { unit: 'gate 3', configuration: 'spring' });
  expect(errorOf(wrong).message.length).toBeLessThan(400);
  const version = Object.create(null);
  expect(errorOf(() => startUnit({ ...prepared, version }, { unit: 'gate 3' })).code).toBe('not_prepared');
});
