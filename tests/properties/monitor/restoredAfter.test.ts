/** A figure that comes and goes is told as restored after a count of readings, whatever the clocks say. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../../src/errors.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorEvent,
  type MonitorInput,
  type MonitorState,
  type PreparedMonitor,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
  type Verdict,
} from '../../../src/monitor/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { some } from '../../volume.ts';
import { begin, minute } from './kept.ts';

// two alarms and a followed figure look at one figure
const acid = { type: 'high', figure: { other: 'acid' }, setpoint: 2 } as const;
const config: MonitorConfig = {
  codes: [],
  alarms: [
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60 },
    { ...acid, id: 'acid' },
    { ...acid, id: 'more acid', setpoint: 3 },
  ],
  follow: [
    { id: 'mean acid', figure: { other: 'acid' }, blockMs: minute, blocks: 8 },
    { id: 'mean soot', figure: { other: 'soot' }, blockMs: minute, blocks: 8 },
  ],
};
const prepare = (restoredAfter?: number) => prepareMonitor({ ...config, restoredAfter });
/** Each prepared once; 0 for left out. */
const preparedFor = [undefined, 1, 2, 3, 4, 5, 6].map(prepare);
const longest = preparedFor.length - 1;
const saved = (state: MonitorState): unknown => JSON.parse(JSON.stringify(state));
const isQuality = ({ event }: MonitorEvent) => event === 'quality_bad' || event === 'quality_restored';

interface Step {
  readonly input: MonitorInput;
  readonly verdict: Verdict | null;
  readonly state: MonitorState;
  readonly events: readonly MonitorEvent[];
}

function run(prepared: PreparedMonitor, inputs: readonly MonitorInput[]): Step[] {
  let state = startMonitor(prepared);
  return inputs.map((input) => {
    const step = advanceMonitor(prepared, state, input);
    state = step.state;
    return { input, ...step };
  });
}

const quality = fc.constantFrom('good' as const, 'good' as const, 'bad' as const);
const other = fc.oneof(fc.constant(1), fc.constant(5), fc.record({ value: fc.constant(1), quality }));
const reading = fc.record(
  {
    celsius: fc.constantFrom(48, 49, 50, 70, 300),
    mlPerMin: fc.constantFrom(0, 50, 60),
    codes: fc.constantFrom({ iso4406: '18/16/13' }, { iso4406: '19/17/14' }),
    qualities: fc.record({ celsius: quality, waterSaturation: quality }, { requiredKeys: [] }),
    others: fc.record({ soot: other, acid: other, unwatched: other }, { requiredKeys: [] }),
  },
  { requiredKeys: [] },
);
const tick = fc.constant({ kind: 'tick' as const });
/** How far the clock of the sensor goes on; now and then it stands, is late, or leaps, and leaps back. */
const on = fc.constantFrom(
  ...[minute, minute, minute, minute, minute, minute, minute, minute],
  ...[-3 * minute, -2 * minute, -minute, 0, 1, 3000 * minute, -3000 * minute, 100000 * minute, -100000 * minute],
);
const host = fc.option(fc.constantFrom(0, 1000, minute, -5000 * minute), { nil: undefined, freq: 3 });
const inputs: fc.Arbitrary<MonitorInput[]> = fc
  .array(fc.tuple(on, host, fc.oneof({ weight: 9, arbitrary: reading }, { weight: 1, arbitrary: tick })), {
    minLength: 1,
    maxLength: 60,
  })
  .map((list) => {
    let time = begin;
    return list.map(([ms, lag, one]): MonitorInput => {
      time += ms;
      const isReading = !('kind' in one);
      return { time, ...one, ...(isReading && lag !== undefined ? { receivedAt: time + lag } : {}) } as MonitorInput;
    });
  });
const after = fc.integer({ min: 1, max: longest });

/** What a reading in order says of each figure: whether it is bad, in words; nothing of one it lacks. */
function saidBy({ input, verdict }: Step): Map<string, boolean> {
  const said = new Map<string, boolean>();
  if (verdict?.arrival !== 'in_order') return said;
  for (const [figure, is] of Object.entries(verdict.figureQualities)) said.set(figure, is === 'bad');
  const { others = {} } = input as { readonly others?: Record<string, unknown> };
  for (const name of ['acid', 'soot']) {
    const is = others[name] as { readonly quality?: string } | undefined;
    if (is !== undefined) said.set(`other ${name}`, is.quality === 'bad');
  }
  return said;
}

/**
 * As docs/monitor.md says it: a figure is told bad when it is; as restored when it has not been bad in the last so many
 * readings in order that had it. All that a figure has said is kept, and looked at anew.
 */
function model(steps: readonly Step[], restoredAfter: number): string[][] {
  const history = new Map<string, boolean[]>();
  const bad = new Set<string>();
  return steps.map((step) => {
    const told: string[] = [];
    for (const [figure, isBad] of saidBy(step)) {
      const all = [...(history.get(figure) ?? []), isBad];
      history.set(figure, all);
      const last = all.slice(-restoredAfter);
      if (isBad && !bad.has(figure)) {
        bad.add(figure);
        told.push(`quality_bad ${figure}`);
      } else if (bad.has(figure) && last.length === restoredAfter && !last.includes(true)) {
        bad.delete(figure);
        told.push(`quality_restored ${figure}`);
      }
    }
    return told.sort();
  });
}

function toldBy({ events }: Pick<Step, 'events'>): string[] {
  return events
    .filter(isQuality)
    .map((event) => `${event.event} ${(event as { figure: string }).figure}`)
    .sort();
}

describe('with any readings, late ones, and clocks that leap', () => {
  test('a small model agrees', () => {
    const seen = { restored: 0, late: 0, clockSet: 0, kept: 0 };
    fc.assert(
      fc.property(inputs, after, (list, restoredAfter) => {
        const steps = run(preparedFor[restoredAfter] as PreparedMonitor, list);
        const told = steps.map(toldBy);
        expect(told).toEqual(model(steps, restoredAfter));
        if (restoredAfter > 2) seen.restored += told.flat().filter((one) => one.startsWith('quality_restored')).length;
        for (const { verdict, events, state } of steps) {
          if (verdict?.arrival === 'late') seen.late += 1;
          if (events.some(({ event }) => event === 'clock_set')) seen.clockSet += 1;
          if (state.restoring !== undefined) seen.kept += 1;
        }
      }),
      { numRuns: some(6000, 300) },
    );
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(some(6000, 300) / 30);
  });

  test('bad and restored alternate, with so many readings not bad between them', () => {
    fc.assert(
      fc.property(inputs, after, (list, restoredAfter) => {
        /** Of each figure told bad: in how many readings in order, up to now, it has not been. */
        const since = new Map<string, number>();
        for (const step of run(preparedFor[restoredAfter] as PreparedMonitor, list)) {
          for (const [figure, isBad] of saidBy(step))
            if (since.has(figure)) since.set(figure, isBad ? 0 : (since.get(figure) as number) + 1);
          for (const event of step.events.filter(isQuality)) {
            const { figure } = event as { readonly figure: string };
            expect(since.has(figure)).toBe(event.event === 'quality_restored');
            if (event.event === 'quality_bad') since.set(figure, 0);
            else expect(since.get(figure)).toBeGreaterThanOrEqual(restoredAfter);
            if (event.event === 'quality_restored') since.delete(figure);
          }
          expect([...(step.state.bad ?? [])].sort()).toEqual([...since.keys()].sort());
          const counts = [...since]
            .filter(([, count]) => count > 0)
            .map(([figure, readings]) => ({ figure, readings }));
          const byName = (a: { figure: string }, b: { figure: string }) => (a.figure < b.figure ? -1 : 1);
          expect([...(step.state.restoring ?? [])].sort(byName)).toEqual(counts.sort(byName));
        }
      }),
      { numRuns: some(3000, 150) },
    );
  });

  test('killed and started again at every input nothing changes', () => {
    fc.assert(
      fc.property(inputs, after, (list, restoredAfter) => {
        const prepared = preparedFor[restoredAfter] as PreparedMonitor;
        let again = startMonitor(prepared);
        for (const { input, ...step } of run(prepared, list)) {
          const resumed = resumeMonitor(prepared, saved(again));
          expect([resumed.state, resumed.events, resumed.dropped, resumed.added]).toEqual([again, [], [], []]);
          const restarted = advanceMonitor(prepared, resumed.state, input);
          expect(restarted).toEqual(step);
          again = restarted.state;
        }
      }),
      { numRuns: some(1500, 75) },
    );
  });

  test('1 is as left out, to the last character', () => {
    fc.assert(
      fc.property(inputs, (list) => {
        const [without, one] = preparedFor as [PreparedMonitor, PreparedMonitor];
        expect(JSON.stringify(run(one, list))).toBe(JSON.stringify(run(without, list)));
      }),
      { numRuns: some(1500, 75) },
    );
  });

  test('nothing else of verdict, events and state depends on it', () => {
    const rest = ({ verdict, events, state: { bad: _bad, restoring: _restoring, ...state } }: Step) => {
      return { verdict, events: events.filter((event) => !isQuality(event)), state };
    };
    fc.assert(
      fc.property(inputs, after, (list, restoredAfter) => {
        const [without] = preparedFor as [PreparedMonitor];
        const steps = run(preparedFor[restoredAfter] as PreparedMonitor, list);
        expect(steps.map(rest)).toEqual(run(without, list).map(rest));
      }),
      { numRuns: some(1500, 75) },
    );
  });

  test('where the number changes between readings, each is restored after as many as then hold, or more', () => {
    fc.assert(
      fc.property(inputs, fc.array(after, { minLength: 60, maxLength: 60 }), (list, numbers) => {
        let state = startMonitor(preparedFor[0] as PreparedMonitor);
        const since = new Map<string, number>();
        list.forEach((input, i) => {
          const restoredAfter = numbers[i] as number;
          const prepared = preparedFor[restoredAfter] as PreparedMonitor;
          const resumed = resumeMonitor(prepared, saved(state));
          for (const { readings } of resumed.state.restoring ?? []) expect(readings).toBeLessThan(restoredAfter);
          const step = { input, ...advanceMonitor(prepared, resumed.state, input) };
          state = step.state;
          for (const [figure, isBad] of saidBy(step))
            since.set(figure, isBad ? 0 : (since.get(figure) ?? Infinity) + 1);
          for (const event of step.events.filter(({ event }) => event === 'quality_restored'))
            expect(since.get((event as { figure: string }).figure)).toBeGreaterThanOrEqual(restoredAfter);
        });
      }),
      { numRuns: some(1500, 75) },
    );
  });
});

/** Readings a minute apart: `g` good, `b` bad, `-` without the figure. */
function told(prepared: PreparedMonitor, word: string, from: MonitorState = startMonitor(prepared)) {
  const start = from.time === undefined ? begin : from.time + minute;
  let state = from;
  const events: string[] = [];
  [...word].forEach((one, i) => {
    const celsius = one === '-' ? {} : { celsius: 50 };
    const qualities = one === 'b' ? { qualities: { celsius: 'bad' as const } } : {};
    const step = advanceMonitor(prepared, state, { time: start + i * minute, mlPerMin: 50, ...celsius, ...qualities });
    state = step.state;
    events.push(...step.events.filter(isQuality).map(({ event, time }) => `${(time - start) / minute} ${event}`));
  });
  return { state, events };
}

function problemsIn(wrong: object): string[] {
  try {
    prepareMonitor(wrong as MonitorConfig);
  } catch (error) {
    return problemsOf(error).map(({ path, code, expected }) => `${code} ${path.join('.')}: ${expected}`);
  }
  return [];
}

describe('by hand', () => {
  const three = prepare(3);

  test('out in every other reading it is told once, and as restored when it stays', () => {
    expect(told(three, 'gbgbgbgbg').events).toEqual(['1 quality_bad']);
    expect(told(three, 'gbgbgbgbgggg').events).toEqual(['1 quality_bad', '10 quality_restored']);
    expect(told(prepare(), 'gbgb').events).toHaveLength(3);
  });

  test('a reading that lacks the figure leaves the count as it was', () => {
    expect(told(three, 'bgg---').state.restoring).toEqual([{ figure: 'celsius', readings: 2 }]);
    expect(told(three, 'bgg---g').events).toEqual(['0 quality_bad', '6 quality_restored']);
    expect(told(three, 'bgg---b-gg').events).toEqual(['0 quality_bad']);
  });

  test('the state holds a count only while one runs', () => {
    expect(told(three, 'b').state).not.toHaveProperty('restoring');
    expect(told(three, 'bgb').state).not.toHaveProperty('restoring');
    expect(told(three, 'bggg').state).not.toHaveProperty('restoring');
    expect(told(three, 'bggg').state).not.toHaveProperty('bad');
    expect(told(prepare(), 'bg-b').state).not.toHaveProperty('restoring');
  });

  test('a figure that several look at counts once a reading', () => {
    let state = startMonitor(three);
    const events = ['bad', 'good', 'good', 'good'].map((is, i) => {
      const others = { acid: { value: 1, quality: is as 'bad' | 'good' } };
      const step = advanceMonitor(three, state, { time: begin + i * minute, others });
      state = step.state;
      return step.events.map(({ event }) => event);
    });
    expect(events).toEqual([['quality_bad'], [], [], ['quality_restored']]);
  });

  test('a figure called as what every object inherits is restored by none of the readings that lack it', () => {
    const name = 'constructor';
    const watch = prepareMonitor({ codes: [], follow: [{ id: 'odd', figure: { other: name } }] });
    let state = startMonitor(watch);
    const events = [{ [name]: { value: 1, quality: 'bad' as const } }, { acid: 1 }, { [name]: 1 }].map((others, i) => {
      const step = advanceMonitor(watch, state, { time: begin + i * minute, others });
      state = step.state;
      return step.events.map(({ event }) => event);
    });
    expect(events).toEqual([['quality_bad'], [], ['quality_restored']]);
  });

  test('alarms judge the good readings in between', () => {
    const state = told(three, 'gbgb').state;
    const { verdict, events } = advanceMonitor(three, state, { time: begin + 4 * minute, celsius: 70 });
    expect(events.map(({ event }) => event)).toEqual(['raised']);
    expect(verdict?.figureQualities).toEqual({ celsius: 'good' });
  });

  test('prepared holds it only above 1', () => {
    expect(three.restoredAfter).toBe(3);
    expect(prepare(1)).not.toHaveProperty('restoredAfter');
    expect(prepare()).not.toHaveProperty('restoredAfter');
    expect(prepareMonitor({ codes: [], restoredAfter: 1000 }).restoredAfter).toBe(1000);
  });

  test.each([
    ['out_of_range', 0],
    ['out_of_range', 1001],
    ['not_an_integer', 2.5],
    ['wrong_type', true],
    ['wrong_type', null],
  ])('%s: %s', (code, restoredAfter) => {
    const problems = problemsIn({ codes: [], restoredAfter });
    expect(problems).toEqual([`${code} restoredAfter: a whole number of readings from 1 to 1000`]);
  });

  test('misspelt it is refused', () => {
    const [first, ...others] = problemsIn({ codes: [], restoreAfter: 3 });
    expect(first).toMatch(/^unknown_option restoreAfter: .*restoredAfter/);
    expect(others).toEqual([]);
  });
});

describe('a state that is taken up again', () => {
  const three = prepare(3);
  const { state } = told(three, 'bgg');

  test('counts on; by another number the next reading may restore, and where none is asked for nothing is kept', () => {
    expect(resumeMonitor(three, saved(state)).state).toEqual(state);
    expect(resumeMonitor(prepare(2), state).state.restoring).toEqual([{ figure: 'celsius', readings: 1 }]);
    expect(told(prepare(2), 'g', resumeMonitor(prepare(2), state).state).events).toEqual(['0 quality_restored']);
    const five = resumeMonitor(prepare(5), state).state;
    expect(told(prepare(5), 'ggg', five).events).toEqual(['2 quality_restored']);
    const off = resumeMonitor(prepare(), state);
    expect(off.state).not.toHaveProperty('restoring');
    expect(off.state.bad).toEqual(['celsius']);
    expect(told(prepare(), 'g', off.state).events).toEqual(['0 quality_restored']);
  });

  test('figures of other names, one configuration after the other: the state keeps to its bytes', () => {
    let kept: MonitorState | null = null;
    for (let i = 0; i < 120; i += 1) {
      const name = `acid ${i}`;
      const prepared = prepareMonitor({
        codes: [],
        restoredAfter: 3,
        follow: [{ id: 'acid', figure: { other: name } }],
      });
      let next: MonitorState = kept === null ? startMonitor(prepared) : resumeMonitor(prepared, saved(kept)).state;
      for (const is of ['bad', 'good'] as const) {
        const time = begin + (2 * i + (is === 'bad' ? 0 : 1)) * minute;
        const others = { [name]: { value: 1, quality: is } };
        next = advanceMonitor(prepared, next, { time, celsius: 50, qualities: { celsius: is }, others }).state;
      }
      expect(next.bad).toEqual(['celsius', `other ${name}`]);
      expect(next.restoring?.map(({ figure }) => figure)).toEqual(['celsius', `other ${name}`]);
      kept = next;
    }
  });

  test('of a version that knew no count, it begins', () => {
    const before = told(prepare(), 'b').state;
    expect(told(three, 'ggg', resumeMonitor(three, saved(before)).state).events).toEqual(['2 quality_restored']);
  });

  test.each<[string, string, unknown]>([
    ['state.restoring[0].figure', 'each figure once, if it is bad', [{ figure: 'kPa', readings: 1 }]],
    [
      'state.restoring[1].figure',
      'each figure once, if it is bad',
      [
        { figure: 'celsius', readings: 1 },
        { figure: 'celsius', readings: 2 },
      ],
    ],
    ['state.restoring[0].readings', 'from 1 to 999', [{ figure: 'celsius', readings: 0 }]],
    ['state.restoring[0].readings', 'from 1 to 999', [{ figure: 'celsius', readings: 1000 }]],
    ['state.restoring[0].readings', '', [{ figure: 'celsius', readings: 1.5 }]],
    ['state.restoring[0].more', '', [{ figure: 'celsius', readings: 1, more: 1 }]],
    ['state.restoring', '', []],
    ['state.restoring', '', {}],
  ])('but not one that is damaged: %s %s', (parameter, words, restoring) => {
    expectRefused('bad_state', parameter, words, () => resumeMonitor(three, { ...state, restoring }));
  });
});
