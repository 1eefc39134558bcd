/** Every event that a unit's record gives can be put into words, in each language. */
import { expect, test } from 'vitest';
import { germanTexts } from '../../../src/german/index.ts';
import { advanceUnit, prepareMonitor, startUnit, type UnitPayload } from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';

const alarms = [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }] as const;
const spring = prepareMonitor({ codes: [], alarms }, { configuration: 'spring' });
const summer = prepareMonitor({ codes: [], alarms: [{ ...alarms[0], id: 'warm' }] }, { configuration: 'summer' });

test('a refused input, another configuration, an alarm', () => {
  const payloads = [
    [spring, { time: 0, celsius: 70 }],
    [spring, { time: 60000, celsius: null } as unknown as UnitPayload],
    [summer, { kind: 'configuration', configuration: 'summer', time: 120000 }],
  ] as const;
  let record = startUnit(spring, { unit: 'lower gate' });
  const lines = payloads.flatMap(([prepared, payload], i) => {
    const step = advanceUnit(prepared, record, { seq: i + 1, payload });
    record = step.record;
    return step.events.map((event) => [messageOf(event).line, messageOf(event, germanTexts).line]);
  });
  expect(lines.slice(1, 3)).toEqual([
    [
      'Input refused. input.celsius: received null. Expected: a temperature in °C from -273.15 to 1000. ' +
        'The input was not used.',
      'Eingabe abgewiesen. input.celsius: null ist dort nicht zulässig. ' +
        'Erwartet: eine Temperatur in °C von -273,15 bis 1.000. Die Eingabe wurde nicht verwendet.',
    ],
    [
      'Configuration summer. It is in force. Alarms and followed figures: 0 go on, 1 dropped, 1 new.',
      'Konfiguration summer. Sie gilt. Alarme und beobachtete Größen: 0 wie bisher, 1 entfallen, 1 neu.',
    ],
  ]);
  expect(lines.flat().filter((line) => line === '' || line.length > 160 || /[{}]/.test(line))).toEqual([]);
});
