/**
 * The flow controller again in decimals of 50 digits: a step as its description has it, over runs with limits, slew,
 * lost signals, a hand at the speed, gaps of the viscosity and a drive in steps; and the rule that finds its settings.
 */
import type { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  advanceFlowControl,
  type FlowControlConfig,
  type FlowControlInput,
  flowControlFor,
  prepareFlowControl,
  startFlowControl,
} from '../../../src/sampling/index.ts';
import { Exact } from '../../doubles.ts';
import { some } from '../../volume.ts';
import { agrees, between, d, near } from '../twin.ts';

const zero = d(0);

/** The slew first, then the limits. */
function limited(config: FlowControlConfig, from: Decimal, to: Decimal, most: Decimal): Decimal {
  const slewed = Exact.min(Exact.max(to, from.minus(most)), from.plus(most));
  return Exact.min(Exact.max(slewed, d(config.leastPercent)), d(config.mostPercent));
}

/** What is less than a thousand-millionth of a step away is there. */
const hair = d(1e-9);

/** How far from half-way between two whole numbers. */
const halves = (of: Decimal) => of.minus(of.floor()).minus(0.5).abs();

/**
 * A whole number of steps of the drive, which moves when the wanted speed is three quarters of one away and the slew
 * allows all of it.
 */
function inSteps(config: FlowControlConfig, from: Decimal, to: Decimal, most: Decimal): Decimal {
  const { percentStep = 0, leastPercent, mostPercent } = config;
  if (percentStep === 0) return to;
  const step = d(percentStep);
  const edge = step.times(hair);
  const off = from.dividedBy(step).minus(from.dividedBy(step).round()).abs();
  const within = from.plus(edge).greaterThanOrEqualTo(leastPercent) && from.minus(edge).lessThanOrEqualTo(mostPercent);
  const wanted = to.minus(from).abs();
  // where doubles may fall on either side, nothing is compared
  fc.pre(wanted.minus(step.times(0.75)).abs().greaterThan(hair) && halves(to.dividedBy(step)).greaterThan(hair));
  if (off.lessThan(hair) && within && wanted.lessThan(step.times(0.75))) return from;
  const highest = d(mostPercent).dividedBy(step).plus(hair).floor().times(step);
  const steps = [...new Array(1 + Math.ceil(100 / percentStep)).keys()].map((n) => step.times(n));
  const allowed = steps.filter((one) => one.greaterThanOrEqualTo(lowest(config)) && one.lessThanOrEqualTo(highest));
  // outside the limits the slew does not count
  const reachable = within
    ? allowed.filter((one) => one.minus(from).abs().lessThanOrEqualTo(most.plus(edge)))
    : allowed;
  // and away from the wanted speed it does not go
  const onward = reachable.filter((one) => !within || one.minus(from).times(to.minus(from)).greaterThan(0));
  const away = (one: Decimal) => one.minus(to).abs();
  const found = onward.reduce<Decimal | null>(
    // of two as near the upper
    (best, one) => (best === null || away(one).lessThanOrEqualTo(away(best)) ? one : best),
    null,
  );
  return found ?? from;
}

function lowest({ percentStep = 0, leastPercent }: FlowControlConfig): Decimal {
  return percentStep === 0
    ? d(leastPercent)
    : d(leastPercent).dividedBy(d(percentStep)).minus(hair).ceil().times(d(percentStep));
}

/** Two commissioning points: the curve between them is the straight line, beyond them the outer one. */
function fedForward(config: FlowControlConfig, mm2PerS: number): Decimal {
  const { curve, mlPerMin } = config.feedForward as NonNullable<FlowControlConfig['feedForward']>;
  const [thin, thick] = curve as [(typeof curve)[0], (typeof curve)[0]];
  const share = d(mm2PerS).minus(thin.mm2PerS).dividedBy(d(thick.mm2PerS).minus(thin.mm2PerS));
  const kept = Exact.min(Exact.max(share, 0), 1);
  const percent = kept.times(d(thick.percent).minus(thin.percent)).plus(thin.percent);
  return percent.times(config.mlPerMin).dividedBy(mlPerMin);
}

/** The speeds of a run that begins with a pump at rest. */
function run(config: FlowControlConfig, inputs: readonly FlowControlInput[]): Decimal[] {
  let speed = zero;
  let integral = zero;
  let fed = zero;
  let known = false;
  let ever = false;
  let byHand = false;
  let stopped = false;
  let cut = false;
  let waits = false;
  let spare = zero;
  // what is left to the feed-forward after a start, and for how long the speed has been there
  let alone: { of: Decimal; since: Decimal } | null = null;
  return inputs.map(({ elapsedSeconds, mlPerMin, manualPercent: hand, mm2PerS, start, ready }) => {
    const seconds = Exact.min(elapsedSeconds, config.longestStepSeconds ?? 10);
    const most = seconds.isZero() ? zero : seconds.times(config.slewPerSecond).plus(spare);
    const stands = speed.isZero();
    const viscous = config.feedForward !== undefined && typeof mm2PerS === 'number';
    const before = fed;
    if (viscous) fed = fedForward(config, mm2PerS as number);
    // a viscosity that was away moves nothing when it is back
    const leap = viscous && !known ? fed.minus(before) : zero;
    known = viscous;
    ever = ever || viscous;
    const go = (to: Decimal) => {
      const reached = limited(config, speed, to, most);
      const next = inSteps(config, speed, reached, most);
      const unused = most.minus(next.minus(speed).abs());
      spare = Exact.min(Exact.max(unused, 0), config.percentStep ?? 0);
      speed = next;
      return reached;
    };
    const manualPercent = typeof hand === 'number' && hand * 2 < config.leastPercent ? 0 : hand;
    const isByHand = typeof manualPercent === 'number';
    const thickest = config.mostMm2PerS ?? Number.POSITIVE_INFINITY;
    const thick = typeof mm2PerS === 'number' ? mm2PerS > thickest : waits && start !== true;
    const may = isByHand ? manualPercent !== 0 : mlPerMin !== null && !thick;
    cut = ready === false || (cut && !(start === true && may));
    stopped = cut || manualPercent === 0 || (stopped && !(start === true && may) && !isByHand);
    waits = stands && !isByHand && !stopped && (waits || (mlPerMin !== null && thick));
    if (stopped || typeof manualPercent === 'number') {
      if (stopped) [speed, spare] = [zero, zero];
      else go(d(manualPercent as number));
      [byHand, alone] = [true, null];
      return speed;
    }
    if (ever && stands) alone = { of: d(config.mlPerMin).minus(mlPerMin ?? 0), since: zero };
    if (byHand && !stands) alone = null;
    if (mlPerMin === null) {
      integral = integral.minus(leap);
      if (stands) spare = zero;
      else go(speed);
      return speed;
    }
    if (stands && thick) {
      [integral, spare] = [integral.minus(leap), zero];
      return speed;
    }
    waits = false;
    const off = d(config.mlPerMin).minus(mlPerMin);
    // of a deviation on the side of what is left to the feed-forward, the rest
    const sides = off.isNegative() ? -1 : 1;
    const apart: Decimal = alone === null ? zero : Exact.max(alone.of.times(sides), 0);
    const answered = Exact.max(off.abs().minus(apart), 0);
    const beyond = Exact.max(answered.minus(config.deadbandMlPerMin ?? 0), 0).times(sides);
    const proportional = beyond.times(config.gain);
    const added = proportional.times(seconds).dividedBy(config.integralSeconds);
    let there = false;
    if (stands) {
      [speed, integral, spare] = [lowest(config), zero, zero];
    } else {
      integral = byHand ? speed.minus(fed).minus(proportional) : integral.minus(leap);
      const wanted = fed.plus(proportional).plus(integral).plus(added);
      const next = go(wanted);
      // a limit is as far as it goes
      there = next.equals(Exact.min(Exact.max(wanted, d(config.leastPercent)), d(config.mostPercent)));
      // held back: the integral is what makes the sum the output, between none and all of its step
      const fitting = next.minus(fed).minus(proportional);
      const [least, all] = [Exact.min(integral, integral.plus(added)), Exact.max(integral, integral.plus(added))];
      const heldBack = wanted.minus(next).times(added).greaterThan(0);
      integral = heldBack ? Exact.min(Exact.max(fitting, least), all) : integral.plus(added);
    }
    if (alone !== null) {
      const since: Decimal = there ? alone.since.plus(seconds) : alone.since;
      // two response times, each four integral times
      const over = since.greaterThan(d(config.integralSeconds).times(8)) || off.times(alone.of).lessThan(0);
      alone = over ? null : { of: alone.of, since };
    }
    byHand = false;
    return speed;
  });
}

const input: fc.Arbitrary<FlowControlInput> = fc.record({
  elapsedSeconds: between(0.2, 14),
  mlPerMin: fc.oneof({ weight: 6, arbitrary: between(20, 180) }, { weight: 1, arbitrary: fc.constant(null) }),
  manualPercent: fc.oneof(
    { weight: 8, arbitrary: fc.constant(null) },
    { weight: 1, arbitrary: fc.oneof(fc.constant(0), between(0, 100)) },
  ),
  mm2PerS: fc.oneof({ weight: 5, arbitrary: between(10, 200) }, { weight: 1, arbitrary: fc.constant(null) }),
});
const started = input.map((one) => ({
  ...one,
  start: one.elapsedSeconds < 7,
  ...(one.elapsedSeconds > 13 ? { ready: false } : {}),
}));

const config: fc.Arbitrary<FlowControlConfig> = fc
  .tuple(
    fc.record({
      mlPerMin: between(60, 140),
      gain: between(0.02, 0.5),
      integralSeconds: between(1, 20),
      leastPercent: between(2, 20),
      mostPercent: between(60, 98),
      slewPerSecond: between(0.5, 40),
      deadbandMlPerMin: fc.constantFrom(0, 1.7),
      percentStep: fc.constantFrom(0, 0, 0.3, 2.5),
      mostMm2PerS: fc.constantFrom(60, 140, 1000),
    }),
    between(15, 45),
    between(15, 45),
    fc.boolean(),
  )
  .map(([settings, thin, thick, feeds]) => {
    const curve = [
      { mm2PerS: 22, percent: thin },
      { mm2PerS: 150, percent: thick },
    ];
    return feeds ? { ...settings, feedForward: { curve, mlPerMin: 90 } } : settings;
  });

test('each speed of a run is that of the twin', () => {
  const seen = { moved: 0, atLimit: 0 };
  fc.assert(
    fc.property(config, fc.array(started, { minLength: 5, maxLength: 25 }), (of, inputs) => {
      const prepared = prepareFlowControl(of);
      let state = startFlowControl(prepared);
      const twins = run(of, inputs);
      inputs.forEach((one, i) => {
        const step = advanceFlowControl(prepared, state, one);
        near(step.percent, twins[i] as Decimal, 1e-9);
        if (step.percent === of.leastPercent || step.percent === of.mostPercent) seen.atLimit += 1;
        else if (step.percent !== state.percent) seen.moved += 1;
        state = step.state;
      });
    }),
    { numRuns: some(3000, 60) },
  );
  expect(seen.moved).toBeGreaterThan(300);
  expect(seen.atLimit).toBeGreaterThan(100);
});

test('the settings for a pump are those of the rule', () => {
  const figures = [between(0.1, 20), between(0.5, 60), between(0, 30), between(0.1, 5), between(0, 3)] as const;
  fc.assert(
    fc.property(...figures, (gain, lagSeconds, deadSeconds, stepSeconds, percentStep) => {
      const found = flowControlFor({ gain, lagSeconds, deadSeconds, stepSeconds, percentStep });
      // SIMC: the closed loop is to take as long as the dead time, to which half a step of the controller counts
      const dead = Exact.max(d(stepSeconds).dividedBy(2).plus(deadSeconds), d(lagSeconds).dividedBy(10));
      agrees(found.gain, d(lagSeconds).dividedBy(d(gain).times(dead.plus(dead))), 1e-14);
      agrees(found.integralSeconds, Exact.min(lagSeconds, dead.plus(dead).times(4)), 1e-14);
      agrees(found.deadbandMlPerMin, d(percentStep).times(gain).times(3).dividedBy(4), 1e-14);
      expect(found.longestStepSeconds).toBe(Math.max(10, stepSeconds * 2));
      expect(found.percentStep).toBe(percentStep);
    }),
    { numRuns: some(500) },
  );
});
