/**
 * What may differ from 0.1.0, and why: each reason stands word for word in docs/changelog.md. All else is equal to the bit.
 */
import { type Difference, isThrown, type Thrown } from './compare.ts';

export interface Allowed {
  /** As in docs/changelog.md. */
  readonly reason: string;
  readonly covers: (difference: Difference) => boolean;
}

/** Both are errors, told by code and parameter. */
const errorsOf = ({ endBefore, endAfter }: Difference): readonly [then: Thrown, now: Thrown] | null =>
  isThrown(endBefore) && isThrown(endAfter) ? [endBefore, endAfter] : null;

/** The path without the places in lists. */
const plain = (path: string): string => path.replace(/\[\w+\]/g, '[]');

export const allowed: readonly Allowed[] = [
  {
    reason: 'Closed sets of words are snake_case.',
    covers: ({ before, after }) =>
      typeof before === 'string' && /^[a-z]+([ -][a-z]+)+$/.test(before) && before.replace(/[ -]/g, '_') === after,
  },
  {
    reason: '`resumeAlarm` and `resumeMonitor` are the door for a state from outside, of 0.1.0 too.',
    covers: ({ name, path, inputs, endBefore, endAfter }) =>
      (/^start(Alarm|Monitor)$/.test(name) && !isThrown(endBefore) && !isThrown(endAfter)) ||
      (/^advance(Alarm|Monitor)$/.test(name) && (/^\.state\b/.test(path) || !('version' in Object(inputs[1])))),
  },
  {
    reason: '`likelyClasses` holds the truth in at least 97 % of a stated population',
    covers: ({ name, endBefore, endAfter }) => name === 'likelyClasses' && !isThrown(endBefore) && !isThrown(endAfter),
  },
  {
    reason: '`meets` has three answers: `met` is null where a size is missing and none fails',
    covers: ({ path, after }) => /\.met$/.test(path) && after === null,
  },
  {
    reason: 'A class that a size not counted could make worse carries the mark `or_dirtier` there',
    covers: ({ name, path, after, endAfter, inputs }) =>
      (/\.mark$/.test(path) && after === 'or_dirtier') ||
      (/\.text$|^$/.test(path) && typeof after === 'string' && / or dirtier$/.test(after)) ||
      (name === 'parseCode' && / or dirtier$/.test(String(inputs[1])) && !isThrown(endAfter)),
  },
  {
    reason: '`forecastCrossing` takes its limits after Fieller',
    covers: ({ name, endBefore, endAfter }) =>
      name === 'forecastCrossing' && !isThrown(endBefore) && !isThrown(endAfter),
  },
  {
    reason: 'Where one reprint only was read, `place` says so.',
    covers: ({ path }) => /\.source\.(place|standing|edition)$/.test(path),
  },
  {
    reason: '`figureQualities` of an assessment and a verdict says how far each figure is to be trusted.',
    covers: ({ path, before }) => /(^|verdict)\.figureQualities$/.test(path) && before === undefined,
  },
  {
    reason: 'A code of a verdict carries `code` and `from`.',
    covers: ({ path, before }) => /\.codes\[\]\.(code|from)$/.test(plain(path)) && before === undefined,
  },
  {
    reason: '`flat_size_distribution` was `air_or_droplets_likely`.',
    covers: ({ before, after }) => before === 'air_or_droplets_likely' && after === 'flat_size_distribution',
  },
  {
    reason: 'What cannot be judged for want of an earlier reading, such as `clock_backwards`, stands in `unchecked`.',
    covers: ({ path }) => /\.unchecked\[\]$/.test(plain(path)),
  },
  {
    reason: '`reading.time` is whole milliseconds (0.1.0: any number)',
    covers: ({ endAfter }) =>
      isThrown(endAfter) && endAfter.error === 'not_an_integer' && /^(reading|input)\.time$/.test(endAfter.parameter),
  },
  {
    reason: 'Charts have the width asked for, of the whole picture',
    covers: ({ name }) => /^(trend|size|cleanUp|probability)Chart$/.test(name),
  },
  {
    reason:
      '`periodFigures(readings, options)` gives the figures of a period, `periodSummary(figures, texts?)` the words',
    covers: ({ name }) => name === 'periodSummary',
  },
  {
    reason: '`utcOffsetMinutes` may be a function of the time.',
    covers: ({ name, inputs }) => name === 'reportRows' && typeof Object(inputs[1]).utcOffsetMinutes === 'function',
  },
  {
    reason: 'Null switches it off.',
    covers: ({ name, inputs, endBefore, endAfter }) =>
      /(Alarm|Monitor)$/.test(name) &&
      (inputs[0] as { staleAfterMs?: unknown } | null)?.staleAfterMs === null &&
      isThrown(endBefore) &&
      !isThrown(endAfter),
  },
  {
    reason: '`reason` of `refused` is a word',
    covers: ({ path, after }) => /^\.events\[\]\.reason$/.test(plain(path)) && /^[a-z_]+$/.test(String(after)),
  },
  {
    reason: 'of an alarm that stands alone `signal_bad`, `signal_good`',
    // beside the others, which so have other places in the list
    covers: ({ name, path, endAfter }) =>
      name === 'advanceAlarm' &&
      /^\.events\[/.test(path) &&
      (endAfter as { events: readonly { event: string }[] }).events.some(({ event }) => /^signal_/.test(event)),
  },
  {
    reason: '`stale` carries `since`',
    covers: ({ path, before }) => /^\.events\[\]\.since$/.test(plain(path)) && before === undefined,
  },
  {
    reason: 'A reading without counts is a reading',
    covers: (difference) => {
      const { endBefore, endAfter } = difference;
      if (isThrown(endBefore) && endBefore.parameter === 'reading.counts' && !isThrown(endAfter)) return true;
      const [then, now] = errorsOf(difference) ?? [];
      const lacking = then !== undefined && /^reading\.counts\b/.test(then.parameter);
      return lacking && /^reading\b/.test(now?.parameter ?? '');
    },
  },
  {
    reason: 'Counts are stuck by the chance of a repeat, `stuckChance` (0.1.0: `stuckReadings`)',
    // what is remembered of repeats
    covers: ({ name, path }) => /Acceptance$/.test(name) && /^(\.state)?\.(same|repeats)$/.test(path),
  },
  {
    reason: '`raised` carries setpoint, priority, figure and code',
    covers: ({ name, path, before }) =>
      /^advance(Alarm|Monitor)$/.test(name) &&
      /^\.events\[\]\.(setpoint|priority|figure|code)$/.test(plain(path)) &&
      before === undefined,
  },
  {
    reason: '(`CodeVerdict` gains `standard`)',
    covers: ({ path, before, name }) =>
      (/\.codes\[\]\.standard$/.test(plain(path)) && before === undefined) ||
      (name === 'reportReading' && /^\.codes\./.test(path)),
  },

  {
    reason: 'A member that an input does not have is refused with `unknown_option`',
    // `sizes` is the member that the walk adds where it does not belong
    covers: ({ endAfter }) =>
      isThrown(endAfter) && endAfter.error === 'unknown_option' && /\.sizes$/.test(endAfter.parameter),
  },
  {
    reason: "Errors name the caller's own path",
    covers: (difference) => {
      const [then, now] = errorsOf(difference) ?? [];
      if (then === undefined || now === undefined) return false;
      // an input of what lives on is held against one rule: the first mistake may be another, the input is the same
      if (/^advance(Monitor|Acceptance)$|^alarmStateName$/.test(difference.name)) {
        return /^(reading|input|state)\b/.test(then.parameter) && /^(reading|input|state)\b/.test(now.parameter);
      }
      if (then.error !== now.error) return false;
      const renamed: Readonly<Record<string, readonly [RegExp, string]>> = {
        cumulativeCounts: [/^at/, 'counts'],
        fromDifferential: [/^ranges/, 'counts.ranges'],
        meets: [/^counts/, 'actual'],
        classifyExact: [/^at/, 'counts.at'],
      };
      const [before, after] = renamed[difference.name] ?? [/^$/, ''];
      return then.parameter.replace(before, after) === now.parameter;
    },
  },
  {
    reason: '`options.columns[1]` for the second label',
    covers: (difference) => {
      const [then, now] = errorsOf(difference) ?? [];
      return then?.parameter === 'options.columns' && /^options\.columns\[\d+\]$/.test(now?.parameter ?? '');
    },
  },
  {
    reason: "say so: `independence: 'assumed'`, and `lag1`, how alike neighbours are",
    covers: ({ name, path, before }) =>
      ['mannKendall', 'senSlope'].includes(name) && /^\.(independence|lag1)$/.test(path) && before === undefined,
  },
  {
    reason: 'The texts of `no_flow`, `flow_low`, `flow_high`, `pressure_low` and `temperature_high`',
    covers: ({ path, before, after }) =>
      /(findings\[\d+\]\.text|\.why)$/.test(path) && typeof before === 'string' && typeof after === 'string',
  },
  {
    reason: 'States of 0.1.0 go on through `resumeFlowControl`',
    covers: ({ name, path, before }) =>
      /FlowControl$/.test(name) && /^(\.state)?\.(version|swing)$/.test(path) && before === undefined,
  },
  {
    reason: 'A lost sample holds the integral part: the loop goes on with the next sample.',
    // at the loss, and from there on, as the states that each library was handed have gone apart
    covers: ({ name, inputs, inputsAfter, endBefore, endAfter }) => {
      if (name !== 'advanceFlowControl' || isThrown(endBefore) || isThrown(endAfter)) return false;
      const [was, is] = [inputs[1] as FlowState, inputsAfter[1] as FlowState];
      const lost = was.lost || (inputs[2] as { mlPerMin: number | null }).mlPerMin === null;
      return lost || was.integral !== is.integral || was.percent !== is.percent;
    },
  },
  {
    reason: '`prepareFlowControl(config)` checks and completes a configuration',
    covers: ({ name, endBefore, endAfter }) =>
      name === 'advanceFlowControl' &&
      isThrown(endBefore) &&
      isThrown(endAfter) &&
      endAfter.error === 'bad_configuration',
  },
  {
    reason: '`startFlowControl(prepared, { percent })`',
    // null is a percent left out, as in other options
    covers: ({ name, inputs }) => name === 'startFlowControl' && inputs[0] === null,
  },
  {
    reason: 'a percentage below 0 is `negative` (0.1.0: `out_of_range`)',
    covers: ({ name, path, before, after }) =>
      name === 'advanceFlowControl' && path === '.error' && before === 'out_of_range' && after === 'negative',
  },
  {
    // the print of a configuration in a state: the adapter names the limits that 0.1.0 had by itself
    reason: '`defaultReadingLimits.leastKPa` and `.mostMm2PerS` are `null` (0.1.0: a figure each)',
    covers: ({ name, path }) => /Acceptance$/.test(name) && /^(\.state)?\.print$/.test(path),
  },
];

interface FlowState {
  readonly lost: boolean;
  readonly integral: number;
  readonly percent: number;
}
