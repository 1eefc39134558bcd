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

export const allowed: readonly Allowed[] = [
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
      if (then === undefined || now === undefined || then.error !== now.error) return false;
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
