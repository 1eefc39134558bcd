/** What is prepared has nothing of the caller's in it: a configuration that is changed afterwards changes nothing. */
import { expect, test } from 'vitest';
import { prepareAcceptance } from '../../../src/acceptance/index.ts';
import { prepareAlarm } from '../../../src/alarm/index.ts';
import { type ClassTable, nas1638 } from '../../../src/codes/index.ts';
import { type MonitorConfig, prepareMonitor } from '../../../src/monitor/index.ts';

/** Its source, notes and words decide no class, and stay those of the caller. */
const { source: _source, notes: _notes, ...left } = nas1638;
const bare = left as ClassTable;
const plain = <T>(data: T): T => JSON.parse(JSON.stringify(data));

/** Every number and text of plain data changed, and every list emptied. */
function spoil(data: unknown): void {
  if (typeof data !== 'object' || data === null || Object.isFrozen(data)) return;
  for (const [name, value] of Object.entries(data)) {
    spoil(value);
    if (typeof value === 'number') (data as Record<string, unknown>)[name] = value * 100 + 1;
    if (typeof value === 'string') (data as Record<string, unknown>)[name] = `${value}!`;
  }
  if (Array.isArray(data)) data.length = 0;
}

test('of a monitor: figures, modes, limits, tables, columns, errors', () => {
  const config = plain({
    codes: [{ table: bare, target: '8', columns: ['5-15', '15-25'], errors: { volume: 0.05 } }],
    tables: [{ ...bare, id: 'own' }],
    alarms: [
      {
        ...{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, note: 'ring' },
        ...{ suppressedInModes: ['stop'], chattering: { raises: 4, withinMs: 9 } },
      },
      { id: 'dirty', type: 'high', figure: { code: 'nas1638' }, setpoint: '8' },
    ],
    follow: [{ id: 'acid', figure: { other: 'acid' }, least: 1 }],
    limits: { plausibleCelsius: { low: -20, high: 90 }, qualities: { no_flow: 'uncertain' } },
  }) as unknown as MonitorConfig;
  const tables = plain([{ ...bare, id: 'third' }]);
  const byId = plain({ codes: [{ table: 'third', target: '8' }] });
  const [prepared, other] = [prepareMonitor(config), prepareMonitor(byId, { tables })];
  const before = plain([prepared, other]);
  for (const one of [config, tables, byId]) spoil(one);
  expect(plain([prepared, other])).toEqual(before);
});

test('of an alarm, and of a proof', () => {
  const alarm = plain({ id: 'hot', type: 'high', setpoint: 65, suppressedInModes: ['stop'] }) as never;
  const proof = plain({ table: bare, target: '8', readings: 7, leastMs: 9, limits: { leastKPa: 20 } });
  const [one, two] = [prepareAlarm(alarm), prepareAcceptance(proof as never)];
  const before = plain([one, two]);
  spoil(alarm);
  spoil(proof);
  expect(plain([one, two])).toEqual(before);
});
