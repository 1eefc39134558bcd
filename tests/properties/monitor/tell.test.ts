/** Findings that the configuration wants told: once when they have come, once when they are gone. */
import { describe, expect, test } from 'vitest';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorInput,
  type MonitorState,
  type PreparedMonitor,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import type { FindingCode } from '../../../src/reading/index.ts';
import { viscosityAt, viscosityLineOfGrade } from '../../../src/viscosity/index.ts';
import { expectRefused } from '../../inputs/refused.ts';
import { begin, minute } from './kept.ts';

const oil = viscosityLineOfGrade(46, 102);
const config: MonitorConfig = {
  codes: [],
  limits: { viscosityLine: oil },
  tell: ['viscosity_off_line', 'free_water_likely'],
};
const prepare = (more: Partial<MonitorConfig> = {}) => prepareMonitor({ ...config, ...more });
/** Each digit a reading: 0 sound, 1 another oil, 2 water, 3 both, `-` neither figure. */
const readings = (kinds: string): MonitorInput[] =>
  kinds.split('').map((kind, i) => {
    const celsius = 40 + (i % 7) / 10;
    const time = begin + i * minute;
    if (kind === '-') return { time, kPa: 30 };
    const mm2PerS = viscosityAt(oil, celsius) * (Number(kind) % 2 === 1 ? 2 : 1);
    return { time, celsius, mm2PerS, waterSaturation: (Number(kind) >= 2 ? 0.96 : 0.3) + (i % 3) / 100 };
  });

function run(prepared: PreparedMonitor, inputs: readonly MonitorInput[], from?: MonitorState) {
  let state = from ?? startMonitor(prepared);
  const told: string[] = [];
  inputs.forEach((input, i) => {
    const step = advanceMonitor(prepared, state, input);
    state = JSON.parse(JSON.stringify(step.state));
    for (const event of step.events) if ('finding' in event) told.push(`${i} ${event.event} ${event.finding}`);
    for (const event of step.events) expect(event.event).not.toBe('quality_bad');
  });
  return { state, told };
}

describe('told', () => {
  test('once each, whatever their quality, and none where nothing is asked for', () => {
    const twice = [...(config.tell ?? []), ...(config.tell ?? [])];
    const { state, told } = run(prepare({ tell: twice }), readings('0113310-20'));
    expect(told).toEqual([
      '1 finding_came viscosity_off_line',
      '3 finding_came free_water_likely',
      '5 finding_gone free_water_likely',
      '6 finding_gone viscosity_off_line',
      '8 finding_came free_water_likely',
      '9 finding_gone free_water_likely',
    ]);
    expect(state).not.toHaveProperty('told');
    for (const tell of [undefined, []]) {
      const none = run(prepare({ tell }), readings('0113310'));
      expect(none.told).toEqual([]);
      expect(JSON.stringify(none.state)).not.toContain('told');
    }
  });

  test('gone after so many readings that could show it, in a row', () => {
    const { told } = run(prepare({ restoredAfter: 3 }), readings('10010--0-00'));
    expect(told).toEqual(['0 finding_came viscosity_off_line', '9 finding_gone viscosity_off_line']);
    const { state } = run(prepare({ restoredAfter: 3 }), readings('300'));
    expect(state.told).toEqual([
      { finding: 'viscosity_off_line', without: 2 },
      { finding: 'free_water_likely', without: 2 },
    ]);
  });

  test('by readings in order alone', () => {
    const [sound, off] = readings('01') as [MonitorInput, MonitorInput];
    // late without it, repeated with it, then late with it
    const late = { ...off, time: begin - minute } as MonitorInput;
    expect(run(prepare(), [off, sound, off, late]).told).toEqual(['0 finding_came viscosity_off_line']);
    expect(run(prepare(), [{ ...sound, time: begin + minute } as MonitorInput, late]).told).toEqual([]);
  });
});

describe('after a change', () => {
  const { state } = run(prepare({ restoredAfter: 5 }), readings('3000'));

  test('what is still asked for goes on', () => {
    const after = prepare({ restoredAfter: 2, tell: ['free_water_likely'] });
    const { state: now } = resumeMonitor(after, state);
    expect(now.told).toEqual([{ finding: 'free_water_likely', without: 3 }]);
    const next = readings('00000').slice(4);
    expect(run(after, next, now).told).toEqual(['0 finding_gone free_water_likely']);
    expect(resumeMonitor(prepare(), state).state.told).toEqual(state.told);
    expect(resumeMonitor(prepare({ tell: undefined }), state).state).not.toHaveProperty('told');
  });

  test('a damaged state is refused', () => {
    const of = (told: unknown) => () => resumeMonitor(prepare(), { ...state, told });
    const [one] = state.told ?? [];
    expectRefused('bad_state', 'state.told[0].finding', '', of([{ finding: 'wet' }]));
    expectRefused('bad_state', 'state.told[0].without', '', of([{ ...one, without: 0 }]));
  });
});

test('takes as many bytes as are counted', () => {
  const every = Object.keys(prepare().limits.qualities) as FindingCode[];
  const none = prepare({ tell: undefined }).stateBytes;
  const bytes = (tell: FindingCode[], more: Partial<MonitorConfig> = {}) => prepare({ tell, ...more }).stateBytes;
  expect(bytes(['no_flow']) - none).toBe(10 + 29 + 'no_flow'.length);
  const told = every.map((finding) => ({ finding, without: 999 }));
  const counting = bytes(every, { restoredAfter: 1000 }) - prepare({ tell: undefined, restoredAfter: 1000 }).stateBytes;
  expect(`,"told":${JSON.stringify(told)}`.length).toBe(counting - 1);
});
