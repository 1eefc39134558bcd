/**
 * What is told at once of a size that does not come, of a code that nothing reads, and of a figure that stays away.
 */
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, iso4406, iso4406Microscope, nas1638 } from '../../src/codes/index.ts';
import { germanTexts } from '../../src/german/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorInput,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../src/monitor/index.ts';
import { messageOf } from '../../src/report/index.ts';

const minute = 60000;
const begin = 1.8e12;

function run(config: MonitorConfig, ...inputs: readonly (MonitorInput | object)[]) {
  const prepared = prepareMonitor(config);
  let state = startMonitor(prepared);
  return inputs.map((input, i) => {
    const saved = resumeMonitor(prepared, JSON.parse(JSON.stringify(state))).state;
    const step = advanceMonitor(prepared, saved, { time: begin + i * minute, ...input } as MonitorInput);
    state = step.state;
    const findings = (step.verdict?.findings ?? []).map(({ code, sizes }) => [code, sizes]);
    return { ...step, findings, told: step.events.map(({ event }) => event) };
  });
}
const counts = (sizes: readonly number[]) => ({
  counts: { sizing: 'iso11171', sizes, perMl: sizes.map((size) => Math.round(16000 / size ** 2)) },
});

describe('a size that is needed and was not counted is a finding at once', () => {
  const missing = (sizes: readonly number[]) => [['count_missing', sizes]];
  const at = (config: Omit<MonitorConfig, 'codes'>, codes: MonitorConfig['codes'] = []) =>
    run({ ...config, codes }, counts([4, 14]))[0]?.findings;
  const alarm = { id: 'dirt', type: 'high' } as const;

  test('by a target, an alarm on a code, an alarm on a figure, a followed figure', () => {
    expect(at({}, [{ table: iso4406, target: '18/16/13' }])).toEqual(missing([6]));
    const onCode = { ...alarm, figure: { code: 'iso4406' }, setpoint: '18/16/13' };
    expect(at({ alarms: [onCode] }, [{ table: iso4406 }])).toEqual(missing([6]));
    for (const kind of ['perMlAt', 'scaleNumberAt', 'continuousScaleNumberAt']) {
      const figure = { [kind]: 6 } as never;
      expect(at({ alarms: [{ ...alarm, figure, setpoint: 5 }] })).toEqual(missing([6]));
      expect(at({ follow: [{ id: 'dirt', figure }] })).toEqual(missing([6]));
    }
    expect(at({}, [{ table: as4059Cumulative, target: '7A-F' as string }])).toEqual(missing([6, 21, 38, 70]));
  });

  test('not where nobody waits for it, or it is there', () => {
    expect(at({}, [{ table: iso4406 }])).toEqual([]);
    expect(at({}, [{ table: iso4406, target: '18/-/13' }])).toEqual([]);
    expect(at({}, [{ table: iso4406, target: '18/-/13', columns: ['4', '14'] }])).toEqual([]);
    const [all] = run({ codes: [{ table: iso4406, target: '18/16/13' }] }, counts([4, 6, 14]));
    expect(all?.findings).toEqual([]);
  });

  test('it makes the counts uncertain, and alarms still judge by the sizes there are', () => {
    const [step] = run(
      {
        codes: [{ table: iso4406 }],
        alarms: [{ ...alarm, figure: { code: 'iso4406' }, setpoint: '14/12/9' }],
      },
      counts([4, 14]),
    );
    expect(step?.verdict?.figureQualities.counts).toBe('uncertain');
    expect(step?.told).toEqual(['raised']);
  });
});

describe('a code that nothing in the configuration reads', () => {
  const only = { codes: [{ table: iso4406 }] };
  const [nas, iso] = [{ codes: { nas1638: '7' } }, { codes: { iso4406: '18/16/13' } }];

  test('is told once, by an event with words, and again after one that is read', () => {
    const steps = run(only, nas, nas, nas, iso, nas);
    expect(steps.map(({ told }) => told)).toEqual([['code_unused'], [], [], [], ['code_unused']]);
    const [event] = steps[0]?.events ?? [];
    expect(event).toEqual({ time: begin, event: 'code_unused', reading: begin, codes: ['nas1638'] });
    expect(event && messageOf(event).paragraph).toContain('codes that no table of the configuration reads: nas1638');
  });

  test('not where it is configured, counts decide, or an alarm takes its scale number', () => {
    expect(run({ codes: [{ table: iso4406 }, { table: nas1638 }] }, nas)[0]?.told).toEqual([]);
    expect(run(only, { ...counts([4, 6, 14]), ...nas })[0]?.told).toEqual([]);
    const alarms = [{ id: 'dirt', type: 'high', figure: { scaleNumberAt: 6 }, setpoint: 18 } as const];
    expect(run({ codes: [], alarms }, iso)[0]?.told).toEqual([]);
    const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 70 } as const;
    const dirt = { id: 'dirt', figure: { scaleNumberAt: 6 } } as const;
    expect(run({ codes: [], alarms: [hot, ...alarms] }, iso)[0]?.told).toEqual([]);
    expect(run({ codes: [], follow: [{ id: 'hot', figure: hot.figure }, dirt] }, iso)[0]?.told).toEqual([]);
    expect(run({ codes: [], alarms: [hot], follow: [dirt] }, nas)[0]?.told).toEqual(['code_unused']);
    expect(run({ codes: [], alarms: [hot] }, iso)[0]?.told).toEqual(['code_unused']);
    expect(run({ codes: [] }, iso)[0]?.told).toEqual(['code_unused']);
  });
});

describe('counts that nothing reads', () => {
  const dirty = { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '24/22/19' } as const;
  const config = { codes: [{ table: iso4406, target: '18/16/13' }], alarms: [dirty] };
  const of = (sizing: string, sizes = [4, 6, 14]) => ({ counts: { ...counts(sizes).counts, sizing } });
  const own = of('iso11171');
  const missing = ['count_missing', [4, 6, 14]];

  test.each(['iso4402', 'microscope', 'iso11171b'])('in %s: told once and at once, and not good', (sizing) => {
    const other = of(sizing);
    const steps = run(config, own, other, { celsius: 40 }, other, own, other);
    expect(steps.map(({ told }) => told)).toEqual([[], ['counts_unused'], [], [], [], ['counts_unused']]);
    const { verdict, findings, events } = steps[1] as (typeof steps)[1];
    expect([verdict?.quality, verdict?.inTarget, findings]).toEqual(['uncertain', null, [missing]]);
    expect(events[0]).toEqual({ time: begin + minute, event: 'counts_unused', reading: begin + minute });
    for (const texts of [undefined, germanTexts]) expect(messageOf(events[0] as never, texts).line).toContain('2027');
  });

  test('counts of another sizing that are read are told at each change', () => {
    const at6 = { codes: [], follow: [{ id: 'six', figure: { perMlAt: 6 } } as const] };
    const other = of('iso4402');
    const steps = run(at6, own, own, { celsius: 40 }, other, other, own, of('iso11171', [4, 6]));
    expect(steps.map(({ told }) => told)).toEqual([[], [], [], ['sizing_changed'], [], ['sizing_changed'], []]);
    const [event] = steps[3]?.events ?? [];
    expect(event).toEqual({ time: begin + 3 * minute, event: 'sizing_changed', reading: begin + 3 * minute });
    for (const texts of [undefined, germanTexts]) expect(messageOf(event as never, texts).line).toContain('2027');
  });

  test('a bottle by microscope is no change for figures at sizes that it does not have', () => {
    const at6 = { codes: [], follow: [{ id: 'six', figure: { perMlAt: 6 } } as const] };
    const own = of('iso11171');
    expect(run(at6, own, of('microscope', [5, 15]))[1]?.told).toEqual(['counts_unused']);
    const code = { codes: [{ table: iso4406 }, { table: iso4406Microscope }] };
    const steps = run(code, own, of('microscope', [5, 15]), own, of('microscope', [5, 15]));
    expect(steps.map(({ told }) => told)).toEqual([[], [], [], []]);
  });

  test('at other sizes, for a code without a target, or for a figure', () => {
    const at = (one: MonitorConfig, given: object) => run(one, given)[0]?.told;
    expect(at(config, of('iso11171', [21, 38]))).toEqual(['counts_unused']);
    expect(at({ codes: [{ table: iso4406 }] }, of('iso4402'))).toEqual(['counts_unused']);
    const figure = { id: 'six', figure: { perMlAt: 6 } } as const;
    expect(at({ codes: [], follow: [figure] }, of('iso11171', [4, 14]))).toEqual(['counts_unused']);
    // one of several reads them, or nothing asks for counts, or they are bad by themselves
    expect(at({ codes: [], follow: [figure] }, own)).toEqual([]);
    expect(
      at({ ...config, codes: [...config.codes, { table: nas1638 }] }, of('iso4402', [5, 15, 25, 50, 100])),
    ).toEqual([]);
    expect(at({ codes: [] }, own)).toEqual([]);
    expect(at(config, { ...of('iso4402'), qualities: { counts: 'bad' } })).toEqual(['quality_bad']);
  });
});

test('staleAfterMs of the monitor counts for each alarm that has none of its own', () => {
  const hot = { type: 'high', figure: { quantity: 'celsius' }, setpoint: 70 } as const;
  const alarms = [
    { ...hot, id: 'as the monitor' },
    { ...hot, id: 'its own', staleAfterMs: 30 * minute },
    { ...hot, id: 'never', staleAfterMs: null },
  ];
  const dry = Array.from({ length: 40 }, () => ({ kPa: 60 }));
  const steps = run({ codes: [], alarms, staleAfterMs: 10 * minute }, { celsius: 40, kPa: 60 }, ...dry);
  const stale = steps.flatMap(({ events }) => events).filter(({ event }) => event === 'signal_stale');
  expect(stale.map((event) => ['alarm' in event && event.alarm, (event.time - begin) / minute])).toEqual([
    ['as the monitor', 10],
    ['its own', 30],
  ]);
});

test('a saved state without the alarms of the configuration: all are told as added', () => {
  const alarms = [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 70 } as const];
  const prepared = prepareMonitor({ codes: [], alarms });
  const { state } = advanceMonitor(prepared, startMonitor(prepared), { time: begin, celsius: 80 });
  expect(() => advanceMonitor(prepared, { ...state, alarms: [] }, { time: begin + 1 })).toThrow(/state\.alarms/);
  expect(resumeMonitor(prepared, { ...state, alarms: [] })).toMatchObject({ kept: [], dropped: [], added: ['hot'] });
});
