/**
 * Commands come late, twice and in the wrong order: what begins a silence does so by its own time, and once (a timed
 * shelf ends by itself: ISA-18.2, TimedShelve of OPC 10000-9, from memory).
 */
import { describe, expect, test } from 'vitest';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceMonitor,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { messageOf } from '../../../src/report/index.ts';

const hour = 3600000;
const begin = Date.UTC(2026, 2, 1);
const prepared = prepareMonitor({
  codes: [],
  alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60 }],
});

/** Commands by the hour they come, each with the hour it was given; a reading each half hour, hot from hour 24 on. */
function run(...given: readonly (readonly [number, string, number, object?])[]) {
  let state = startMonitor(prepared);
  const told: string[] = [];
  const take = (at: number, input: MonitorInput) => {
    const step = advanceMonitor(prepared, resumeMonitor(prepared, JSON.parse(JSON.stringify(state))).state, input);
    state = step.state;
    for (const one of step.events) told.push(`${at} ${'reason' in one ? one.reason : one.event}`);
  };
  for (let at = 0; at < 48; at += 0.5) {
    for (const [comes, command, time, more] of given)
      if (comes > at - 0.5 && comes <= at)
        take(comes, { kind: 'command', alarm: 'hot', command, time: begin + time * hour, ...more } as MonitorInput);
    take(at, { time: begin + at * hour, celsius: (at >= 24 ? 85 : 45) + (at % 3) });
  }
  return told;
}
const remove = 'remove_from_service';
const back = 'return_to_service';
const shelf = { forMs: 8 * hour };

describe('no silence is begun by a command that has been answered already', () => {
  test('a removal that comes again after the return, or is overtaken by it', () => {
    const again = run([2, remove, 2], [3, back, 3], [10, remove, 2]);
    expect(again).toEqual([
      '2 removed_from_service',
      '3 returned_to_service',
      '10 older_than_last_command',
      '24 raised',
    ]);
    expect(run([3, back, 2.9], [4, remove, 2])).toEqual([
      '3 not_out_of_service',
      '4 older_than_last_command',
      '24 raised',
    ]);
    // and one that is newer is taken
    expect(run([2, remove, 2], [3, back, 3], [10, remove, 9])).toContain('10 removed_from_service');
  });

  test('a shelf ends by its own time, and not at all begins after it', () => {
    expect(run([22, 'shelve', 18, shelf])).toEqual(['22 shelved', '26.5 unshelved', '26.5 raised']);
    expect(run([23, 'shelve', 2, shelf])).toEqual(['23 shelf_over', '24 raised']);
    const twice = run([2, 'shelve', 2, shelf], [4, 'unshelve', 4], [5, 'shelve', 2, shelf]);
    expect(twice).toEqual(['2 shelved', '4 unshelved', '5 older_than_last_command', '24 raised']);
  });

  test('an operator whose clock lags waits for as long, and is then heard', () => {
    const lag = 0.25;
    const shelved = run([22, 'shelve', 22 - lag, shelf]);
    expect(shelved).toEqual(['22 shelved', '30 unshelved', '30 raised']);
    const toldAfter = (at: number) => run([22, remove, 22], [23, back, 23], [at, 'shelve', at - lag, shelf]);
    expect(toldAfter(23.2)).toContain('23.2 older_than_last_command');
    expect(toldAfter(23.3)).toContain('23.3 shelved');
    // a command of a clock that is ahead for longer than any delivery takes keeps nobody out
    expect(run([2, remove, 2 + 41 * 24], [3, back, 3], [10, remove, 10])).toContain('10 removed_from_service');
  });

  test('the refusals have words', () => {
    const lines = (reason: string) => {
      const event = { time: begin, alarm: 'hot', event: 'refused', reason, limit: begin } as never;
      return [messageOf(event).line, messageOf(event, germanTexts).line];
    };
    expect(lines('shelf_over')[0]).toContain('it came when its time was over');
    expect(lines('older_than_last_command')[1]).toContain('zugleich oder später gegebener');
  });
});
