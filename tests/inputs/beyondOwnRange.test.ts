/**
 * A number beyond the counter's own range (`>20`) is no upper bound: too many to count, and not a code that nobody can
 * read, which would let the rest prove a target.
 */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../src/acceptance/index.ts';
import { as4059Cumulative, type ClassTable, iso4406, nas1638, parseCode } from '../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor, type Verdict } from '../../src/monitor/index.ts';
import { assessReading } from '../../src/reading/index.ts';
import { periodFigures } from '../../src/report/index.ts';
import { type Problem, parseAcceptanceReading, parseMonitorReading, parseReading } from '../../src/schema/index.ts';

const start = 1795593600000;

describe('at the door', () => {
  test.each([
    ['iso4406', '>20/18/15', '*/18/15'],
    ['iso4406', '> 20 / >18 / 15', '* / * / 15'],
    ['iso4406', '\uFF1E20/18/15', '*/18/15'],
    ['iso4406', 'ISO 4406: >20/18/15', '*/18/15'],
    ['iso4406Microscope', '-/>18/15', '-/*/15'],
    ['nas1638', '>9', '10 or dirtier'],
    ['nas1638', 'NAS >11', '12 or dirtier'],
    ['as4059Cumulative', 'SAE AS4059 \uFF1E9B/8C', '>9B/8C'],
  ])('%s: %s is read as %s and told, whether or not what is readable is kept', (id, text, code) => {
    for (const keepReadable of [true, false]) {
      const told: Problem[] = [];
      expect(parseReading({ codes: { [id]: text } }, told, { keepReadable })).toEqual({ codes: { [id]: code } });
      expect(told).toMatchObject([{ path: ['codes', id], code: 'bad_code', expected: `read as ${code}` }]);
    }
  });

  test('what the table writes itself stays', () => {
    const codes = { iso4406: '>28/>=18/*', nas1638: '>12', as4059Cumulative: '>12B-F' };
    const told: Problem[] = [];
    expect(parseReading({ codes }, told)).toEqual({ codes });
    expect(told).toEqual([]);
  });

  test.each(['>9B/8C', '>9B-F', '7A/>6B'])('%s stays beside a size letter: >12B would say more', (text) => {
    for (const keepReadable of [true, false]) {
      const told: Problem[] = [];
      const codes = { as4059Cumulative: text };
      expect(parseReading({ codes }, told, { keepReadable })).toEqual({ codes });
      expect(told).toEqual([]);
    }
  });

  test.each(['>31/18/15', '>x/18/15', '>/18/15', '<20/18/15'])('%s is no code, as before', (text) => {
    expect(parseReading({ codes: { iso4406: text } }, [], { keepReadable: true })).toEqual({
      qualities: { counts: 'bad' },
    });
  });

  test('parseCode reads what ISO 4406 writes, and no more', () => {
    expect(() => parseCode(iso4406, '>20/18/15')).toThrow("'>28'");
  });
});

/** What becomes of a run of two when a code comes, with what the door makes of it or as it is. */
function proof(table: ClassTable, target: string, codes: readonly string[], atTheDoor: boolean): string[] {
  const prepared = prepareAcceptance({ table, target, readings: 3 });
  let state = startAcceptance(prepared);
  const told: string[] = [];
  codes.forEach((code, i) => {
    const raw = { time: start + i * 600000, codes: { [table.id]: code } };
    const step = advanceAcceptance(
      prepared,
      state,
      atTheDoor ? parseAcceptanceReading(raw, [], { keepReadable: true }) : raw,
    );
    state = step.state;
    for (const { event, why = '' } of step.events) told.push(`${event} ${why}`.trim());
  });
  return told;
}

describe.each([true, false])('in a proof, read at the door: %s', (atTheDoor) => {
  test.each(['>20/18/15', '>20/>18/15', '>20/13/10', '15/13/>10', '*/18/15'])('%s ends the run', (bad) => {
    expect(proof(iso4406, '16/14/11', ['15/13/10', '15/13/9', bad, '15/12/10'], atTheDoor)).toEqual([
      'counted',
      'counted',
      'restarted worse_than_target',
      'not_counted worse_than_target',
      'counted',
    ]);
  });

  test('a class beyond the range ends it, and one that may be the class asked for does not count', () => {
    const of = (target: string, bad: string) => proof(nas1638, target, ['5', '5', bad, '5'], atTheDoor).slice(2);
    expect(of('7', '>9')).toEqual(['restarted worse_than_target', 'not_counted worse_than_target', 'counted']);
    expect(of('10', '>9')).toEqual(['not_counted not_known', 'accepted']);
  });
});

test('a monitor says that the target is missed, and the alarm on the code is raised', () => {
  const prepared = prepareMonitor({
    codes: [{ table: iso4406, target: '16/14/11' }],
    alarms: [{ id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' }],
  });
  const reading = { time: start, codes: { iso4406: '>20/18/15' } };
  const { verdict, events } = advanceMonitor(prepared, startMonitor(prepared), reading);
  expect([verdict?.inTarget, verdict?.codes[0]?.text]).toEqual([false, '*/18/15']);
  expect(events).toContainEqual(expect.objectContaining({ event: 'raised', alarm: 'dirty' }));
});

test('an assessment and a period take it for too many to count, as they take `*`', () => {
  const codesOf = (code: string) => ({ codes: { iso4406: code } });
  expect(assessReading(codesOf('>20/18/15'))).toMatchObject({
    quality: 'uncertain',
    findings: [{ code: 'above_coincidence_limit', received: '>20/18/15' }],
  });
  const figures = (code: string) =>
    periodFigures([{ time: start, ...codesOf(code) }], { table: iso4406, target: '16/14/11' });
  expect(figures('>20/18/15')).toEqual(figures('*/18/15'));
});

test('beside a size letter it says no more than it does: a code of possible oil is no rise with size', () => {
  const table = as4059Cumulative;
  const alarm = { id: 'dirty', type: 'high', figure: { code: table.id }, setpoint: '6A/5B/4C' } as const;
  const prepared = prepareMonitor({ codes: [{ table }], alarms: [alarm] });
  const raw = { time: start, codes: { [table.id]: '7A/>6B' } };
  for (const reading of [raw, parseMonitorReading(raw, [], { keepReadable: true })]) {
    const step = advanceMonitor(prepared, startMonitor(prepared), reading);
    expect([step.verdict?.quality, step.events.map(({ event }) => event)]).toEqual(['good', ['raised']]);
  }
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [200000, 60000, 9000] } as const;
  const own = { counts, codes: { [table.id]: '>8A/>8B/>8C' } };
  const { findings } = advanceMonitor(prepared, startMonitor(prepared), { time: start, ...own }).verdict as Verdict;
  expect(findings.filter(({ code }) => code === 'code_disagrees')).toEqual([]);
});
