/** Errors in German: numbers in the signs of the language, and a sentence for what a command or a tick may hold. */
import { expect, test } from 'vitest';
import { germanTexts } from '../../src/german/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../src/monitor/index.ts';
import { errorText, messageOf } from '../../src/report/index.ts';
import { suctionLift, suctionLimits } from '../../src/sampling/index.ts';
import { parseMonitorConfig } from '../../src/schema/index.ts';
import { fahrenheitToCelsius, psiToKPa } from '../../src/units.ts';
import { viscosityLine } from '../../src/viscosity/index.ts';
import { solubilityAt, solubilityLine } from '../../src/water/index.ts';

const alarms = [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }] as const;
const prepared = prepareMonitor({ codes: [], alarms });
const time = 1795593600000;
const command = { kind: 'command', alarm: 'hot', command: 'acknowledge', time };

function told(input: object, texts?: typeof germanTexts): string {
  try {
    advanceMonitor(prepared, startMonitor(prepared), input as never);
  } catch (error) {
    return errorText(error, texts);
  }
  return '';
}

test.each<[object, string]>([
  [{ time, flushedMl: -1.234 }, 'flushedMl ist negativ: -1,234. Erwartet: '],
  [{ time, waterSaturation: 2.345 }, 'außerhalb des Bereichs: 2,345. Erwartet: eine relative Wassersättigung'],
  [{ time, celsius: '71.5' }, "celsius ist von falscher Art: '71.5'. Erwartet: eine Temperatur in °C"],
  [{ ...command, by: '' }, 'input.by ist leer. Erwartet: ein Name mit 1 bis 64 Zeichen.'],
  [{ ...command, why: '' }, 'input.why ist leer. Erwartet: ein Grund mit 1 bis'],
  [{ ...command, time: 1.5 }, 'keine ganze Zahl: 1,5. Erwartet: ganze Millisekunden seit 1970-01-01 UTC von'],
  [
    { kind: 'tick', time, mode: '' },
    'input.mode ist leer. Erwartet: eine Betriebsart der Maschine mit 1 bis 64 Zeichen.',
  ],
])('%j', (input, words) => {
  expect(told(input, germanTexts)).toContain(words);
});

test('English writes what came as it came', () => {
  expect(told({ time, flushedMl: -1234.5 })).toContain('is negative: -1234.5.');
});

test('the hint that temperatures look like kelvin', () => {
  const points = [
    { celsius: 313, mm2PerS: 46 },
    { celsius: 373, mm2PerS: 6.8 },
  ];
  let error: unknown;
  try {
    viscosityLine(points);
  } catch (thrown) {
    error = thrown;
  }
  expect(errorText(error, germanTexts)).toContain(
    'Erwartet: eine Zahl von -80 bis 250 (°C eines Öls, nicht in Kelvin).',
  );
});

const inletLine = { segments: [{ metres: 1, boreMm: 6 }], mlPerMin: 60, fluid: { mm2PerS: 46, kgPerM3: 870 } };
const wet = (celsius: number, mgPerKg: number) => ({ celsius, mgPerKg });
const cold = { id: 'w', figure: { waterSaturationAt: 5 } };

test.each([
  ['eine Zahl von 30 bis 300 (kPa absolut: 0,95 bar', () => suctionLift({ ...inletLine, atmosphereKPa: 950 })],
  ['0,8 bar oder 11,6 psi sind 80', () => suctionLimits({ ...inletLine, inletLimitKPa: 11.6 })],
  ['von 500 bis 3.000 K; diese geben 106', () => solubilityLine([wet(20, 190), wet(60, 210)])],
  ['eine Zahl von 500 bis 3.000 (Steigung eines Öls in K)', () => solubilityAt({ a: 2, b: 10 }, 20)],
  ['(ab dem absoluten Nullpunkt)', () => fahrenheitToCelsius(-500)],
  ['(als Überdruck liegt kein Vakuum darunter)', () => psiToKPa(-20)],
  ['die der Messwert waterSaturationAt braucht', () => prepareMonitor({ codes: [], follow: [cold] })],
])('%s', (words, call) => {
  let error: unknown;
  try {
    call();
  } catch (thrown) {
    error = thrown;
  }
  expect(errorText(error, germanTexts)).toContain(words);
});

test('several mistakes in one sentence', () => {
  const expected: string[] = [];
  for (const config of [
    { codes: [], alarm: [] },
    { codes: [], alarm: [], staleAfterMs: -5 },
  ])
    try {
      parseMonitorConfig(config);
    } catch (error) {
      expected.push((error as { expected: string }).expected);
    }
  expect(expected[0]).toMatch(/^an input without this mistake: config\.alarm: received 'alarm', expected /);
  expect(expected[1]).toMatch(/^an input without these 2 mistakes: .*; config\.staleAfterMs: received -5, expected /);
  const rejected = {
    time,
    event: 'rejected',
    code: 'out_of_range',
    parameter: 'input',
    received: 'an object',
  } as const;
  const lines = expected.map((one) => messageOf({ ...rejected, expected: one } as never, germanTexts).line);
  expect(lines[0]).toContain('Erwartet: eine Eingabe ohne diesen Fehler.');
  expect(lines[1]).toContain('Erwartet: eine Eingabe ohne diese 2 Fehler.');
});
