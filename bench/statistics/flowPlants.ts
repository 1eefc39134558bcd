/**
 * Pumps and lines drawn at random for the rates of flow control: displacement, slip by back-pressure and thin oil, bad
 * filling by thick oil, three lags (pump, line, meter) and a dead time; a meter with noise and steps; an oil whose
 * viscosity follows the day; a slip that doubles by wear. Every one is the same for the same seed.
 */
import {
  advanceFlowControl,
  type FlowControlConfig,
  type FlowControlState,
  flowControlFor,
  prepareFlowControl,
  startFlowControl,
} from '../../src/sampling/index.ts';

export interface Chance {
  /** Even from 0 to 1. */
  share(): number;
  /** Standard normal. */
  normal(): number;
  /** Even in the logarithm. */
  between(low: number, high: number): number;
  one<T>(of: readonly T[]): T;
}

export function chance(seed: number): Chance {
  let state = seed >>> 0;
  const share = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    share,
    normal: () => Math.sqrt(-2 * Math.log(share() + 1e-12)) * Math.cos(2 * Math.PI * share()),
    between: (low, high) => low * (high / low) ** share(),
    one: (of) => of[Math.floor(share() * of.length)] as never,
  };
}

export interface PlantFigures {
  /** mL/min for each percent. */
  readonly gain: number;
  readonly slip: number;
  readonly back: number;
  readonly fill: number;
  readonly lags: readonly [number, number, number];
  readonly dead: number;
}

export interface Plant {
  steady(percent: number, mm2PerS: number, wear?: number): number;
  flow(): number;
  seconds(): number;
  from(percent: number, mm2PerS: number): void;
  step(percent: number, elapsed: number, mm2PerS: number, wear?: number): number;
}

export function plantOf(of: PlantFigures): Plant {
  const now: [number, number, number] = [0, 0, 0];
  let seconds = 0;
  let acting = 0;
  const given: [number, number][] = [];
  const steady = (percent: number, mm2PerS: number, wear = 1) => {
    const displaced = (of.gain * percent) / (1 + ((percent * mm2PerS) / of.fill) ** 2);
    const slip = of.slip * wear;
    return Math.max(0, (displaced - (slip * of.back) / mm2PerS) / (1 + slip));
  };
  return {
    steady,
    flow: () => now[1],
    seconds: () => seconds,
    from(percent: number, mm2PerS: number) {
      acting = percent;
      now[0] = percent;
      now[1] = now[2] = steady(percent, mm2PerS);
    },
    /** What the meter sees after a time at a speed. */
    step(percent: number, elapsed: number, mm2PerS: number, wear = 1): number {
      const parts = Math.max(1, Math.min(60, Math.ceil((2 * elapsed) / Math.min(...of.lags))));
      const part = elapsed / parts;
      const shares = of.lags.map((lag) => 1 - Math.exp(-part / lag));
      given.push([seconds, percent]);
      for (let i = 0; i < parts; i += 1) {
        seconds += part;
        while (given.length > 0 && (given[0] as [number, number])[0] <= seconds - of.dead)
          acting = (given.shift() as [number, number])[1];
        now[0] += (shares[0] as number) * (acting - now[0]);
        now[1] += (shares[1] as number) * (steady(now[0], mm2PerS, wear) - now[1]);
        now[2] += (shares[2] as number) * (now[1] - now[2]);
      }
      return now[2];
    },
  };
}

/** Gain, lag and dead time as a step of 5 % shows them. */
function stepTest(of: PlantFigures, percent: number, mm2PerS: number) {
  const plant = plantOf(of);
  plant.from(percent, mm2PerS);
  const [before, after] = [plant.flow(), plant.steady(percent + 5, mm2PerS)];
  const part = Math.min(...of.lags) / 4;
  let dead = 0;
  for (let t = part; ; t += part) {
    const share = (plant.step(percent + 5, part, mm2PerS) - before) / (after - before);
    if (dead === 0 && share >= 0.05) dead = t;
    if (share >= 0.632 || t > 2000)
      return { gain: (after - before) / 5, deadSeconds: dead, lagSeconds: Math.max(t - dead, part) };
  }
}

/** What a fault makes of what the meter shows; `at` is the time since it began, below 0 before. */
export type Fault = (mlPerMin: number, at: number, of: Case) => number | null;

export interface Case {
  readonly seed: number;
  readonly chance: Chance;
  readonly stepSeconds: number;
  readonly setpoint: number;
  readonly percentStep: number;
  readonly noise: number;
  readonly quantum: number;
  readonly config: FlowControlConfig;
  readonly curve: NonNullable<FlowControlConfig['feedForward']>;
  readonly figures: PlantFigures;
  readonly mm2PerS: number;
  readonly slow: number;
  /** The last figure before a fault. */
  held?: number;
}

export interface CaseOptions {
  readonly noise?: number;
  readonly stepSeconds?: number;
  readonly feedForward?: boolean;
  readonly percentStep?: number;
  readonly withResponse?: boolean;
}

/** A plant with its settings; null where the pump could not give this flow, or no drive in such steps hold it. */
export function caseOf(seed: number, options: CaseOptions = {}): Case | null {
  const r = chance(seed);
  const gain = r.between(0.2, 10);
  const figures: PlantFigures = {
    gain,
    slip: r.between(0.005, 0.15),
    back: r.share() * gain * 10,
    fill: r.between(2e4, 1e6),
    lags: [r.between(0.2, 10), r.between(0.2, 30), r.between(0.2, 10)],
    dead: r.between(0.1, 30),
  };
  const mm2PerS = r.between(15, 200);
  const stepSeconds = options.stepSeconds ?? r.one([0.1, 0.5, 1, 2, 5, 10, 30, 60, 120, 600]);
  const anyStep = r.one([0, 0, 0.1, 0.5, 1, 2, 5]);
  const percentStep = options.percentStep ?? anyStep;
  const percent = 20 + r.share() * 40;
  const slewPerSecond = r.between(0.3, 20);
  const noise = (options.noise ?? 0.03) * r.share();
  const quantumShare = r.one([0, 0, 0.002, 0.01, 0.02]);
  const plant = plantOf(figures);
  const setpoint = plant.steady(percent, mm2PerS);
  if (setpoint < gain * 5 || plant.steady(percent + 5, mm2PerS) <= setpoint * 1.02) return null;
  const settings = flowControlFor({ ...stepTest(figures, percent, mm2PerS), stepSeconds, percentStep });
  if (settings.deadbandMlPerMin >= setpoint / 2) return null;
  const speedAt = (viscosity: number) => {
    let [low, high] = [0, 100];
    for (let i = 0; i < 50; i += 1) {
      const middle = (low + high) / 2;
      if (plant.steady(middle, viscosity) < setpoint) low = middle;
      else high = middle;
    }
    return Math.min(low, 95);
  };
  const points = [0.4, 0.6, 0.8, 1, 1.4, 2.5].map((times) => mm2PerS * times);
  const curve = { curve: points.map((one) => ({ mm2PerS: one, percent: speedAt(one) })), mlPerMin: setpoint };
  const { response, ...bare } = settings as typeof settings & { response?: unknown };
  const config = {
    ...(options.withResponse === false ? bare : settings),
    mlPerMin: setpoint,
    leastPercent: 5,
    mostPercent: 95,
    slewPerSecond,
    ...(options.feedForward === true ? { feedForward: curve } : {}),
  } as FlowControlConfig;
  return {
    ...{ seed, chance: r, stepSeconds, setpoint, percentStep, noise, quantum: quantumShare * setpoint, config, curve },
    ...{ figures, mm2PerS, slow: 1 },
  };
}

export interface Outcome {
  readonly hours: number;
  /** Within 5 % and the deadband, and 2 % more, in the last two fifths. */
  readonly settled: boolean;
  readonly overshoot: number;
  readonly events: readonly { readonly event: string; readonly seconds: number; readonly share: number }[];
  /** The largest true flow since the fault, as a share of the setpoint. */
  readonly peak: number;
  readonly percents: readonly number[];
}

/** A course from a standing pump. */
export function course(
  of: Case,
  steps: number,
  faultAt: number = Infinity,
  fault: Fault = (flow: number) => flow,
  drift: number = 0.6,
  warming: number = 0,
): Outcome {
  const { chance: r, stepSeconds, setpoint, config, noise, quantum } = of;
  const prepared = prepareFlowControl(config);
  const plant = plantOf(of.figures);
  let state: FlowControlState = startFlowControl(prepared);
  const events: { event: string; seconds: number; share: number }[] = [];
  const band = 0.07 + (config.deadbandMlPerMin ?? 0) / setpoint;
  let [last, overshoot, peak] = [-1, 0, 0];
  const percents: number[] = [];
  for (let i = 0; i < steps; i += 1) {
    const day = drift * Math.sin((2 * Math.PI * plant.seconds()) / 86400);
    // as an oil warms up: to its viscosity from five times as much, fast at first
    const warm = Math.log(5) * Math.exp((-3 * Math.max(plant.seconds() - 600, 0)) / warming);
    const mm2PerS = of.mm2PerS * Math.exp(warming > 0 ? warm : day);
    const metered = plant.step(state.percent, stepSeconds, mm2PerS, drift === 0 ? 1 : 1 + i / steps);
    let shown: number | null = Math.max(0, metered + noise * setpoint * r.normal());
    if (quantum > 0) shown = Math.round(shown / quantum) * quantum;
    const at = plant.seconds() - faultAt;
    if (at < 0) of.held = shown;
    else shown = fault(shown, at, of);
    const answer = advanceFlowControl(prepared, state, {
      elapsedSeconds: stepSeconds,
      mlPerMin: shown,
      ...(config.feedForward === undefined ? {} : { mm2PerS }),
    });
    state = answer.state;
    const share = plant.flow() / setpoint;
    if (Math.abs(share - 1) > band) last = i;
    if (i > 2) overshoot = Math.max(overshoot, share - 1);
    if (at >= 0) peak = Math.max(peak, share);
    percents.push(state.percent);
    for (const { event } of answer.events) events.push({ event, seconds: plant.seconds(), share });
  }
  return { hours: (steps * stepSeconds) / 3600, settled: last < steps * 0.6, overshoot, events, peak, percents };
}
