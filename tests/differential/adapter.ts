/**
 * The library of today behind the face of 0.1.0: names, the order of arguments, words, and what is prepared once today.
 * Only forms are changed here. A figure or a verdict that differs is a difference, see `allowed.ts`.
 */
type Call = (...inputs: never[]) => unknown;
/** All that a library exports. */
export type Face = Readonly<Record<string, unknown>>;

/** Words of 0.1.0 and of today, by the members they stand in: elsewhere the same letters may be another word. */
const words: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  mark: {
    'few counted': 'few_counted',
    'too many': 'too_many',
    'not counted': 'not_counted',
    'at most': 'at_most',
  },
  end: { 'first class': 'first_class' },
  method: { 'log-log': 'log_log', 'log-log2': 'log_log2' },
  model: {
    'non-paralyzable': 'non_paralyzable',
    'wales-wilson': 'wales_wilson',
    'princen-kwolek': 'princen_kwolek',
  },
};
type Dictionary = Readonly<Record<string, Readonly<Record<string, string>>>>;
const wordsThen: Dictionary = Object.fromEntries(
  Object.entries(words).map(([member, list]) => [
    member,
    Object.fromEntries(Object.entries(list).map(([then, now]) => [now, then])),
  ]),
);

/** A value with some words for others; what holds none stays the very same. Tables of a standard are left alone. */
function reworded(value: unknown, dictionary: Dictionary, member = ''): unknown {
  if (typeof value === 'string') return dictionary[member]?.[value] ?? value;
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value) || 'perVolumeMl' in value) return value;
  if (Array.isArray(value)) {
    const list = Array.from(value, (element) => reworded(element, dictionary));
    return list.some((element, i) => element !== value[i]) ? list : value;
  }
  const entries = Object.entries(value).map(([key, own]) => [key, reworded(own, dictionary, key)] as const);
  const same = entries.every(([key, own]) => own === (value as Record<string, unknown>)[key]);
  return same ? value : Object.fromEntries(entries);
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Limits of a reading with the two that 0.1.0 had by itself. */
function withLimitsOfThen(own: unknown, before: Face): unknown {
  if (own !== undefined && !isRecord(own)) return own;
  const { leastKPa, mostMm2PerS } = before.defaultReadingLimits as Record<string, unknown>;
  return { leastKPa, mostMm2PerS, ...own };
}

/** A configuration with the limits of then. */
function configOfThen(config: unknown, before: Face): unknown {
  return isRecord(config) ? { ...config, limits: withLimitsOfThen(config.limits, before) } : config;
}

/** Runs a call whose input had another place: an error names it by that. */
function underName(then: string, now: string, run: () => unknown): unknown {
  try {
    return run();
  } catch (thrown) {
    const { code, parameter } = thrown as { code?: unknown; parameter?: string };
    if (parameter === undefined || `${parameter}.`.indexOf(`${now}.`) !== 0) throw thrown;
    throw Object.assign(new Error('moved'), { code, parameter: then + parameter.slice(now.length) });
  }
}

/** An input of an alarm or a monitor, which says today what it is. */
function inputOfToday(input: unknown): unknown {
  if (!isRecord(input) || 'kind' in input) return input;
  if ('command' in input) return { kind: 'command', ...input };
  return Object.keys(input).join() === 'time' ? { kind: 'tick', ...input } : input;
}

/**
 * What a proof asks as it is written today. That a flow pulsates, 0.1.0 did not see: it is compared in readings and
 * monitors only.
 */
function proofOfToday(config: unknown): unknown {
  if (!isRecord(config)) return config;
  const { longestGapMs, limits, ...rest } = config;
  const gap = 'longestGapMs' in config ? { maxGapMs: longestGapMs } : {};
  return { ...rest, ...gap, limits: isRecord(limits) ? { ...limits, flowSwing: null } : limits };
}

/**
 * A monitor whose followed figures ask for no CUSUM, and which only tells an empty channel and a counter that has died:
 * 0.1.0 did not see them, and its alarms would go apart.
 */
function monitorOfToday(given: unknown): unknown {
  if (!isRecord(given) || (given.limits !== undefined && !isRecord(given.limits))) return given;
  const { qualities = {}, ...others } = (given.limits ?? {}) as { qualities?: object };
  const config = {
    ...given,
    limits: { ...others, qualities: { channel_empty: 'good', no_particles: 'good', ...qualities } },
  };
  if (!Array.isArray(given.follow)) return config;
  const follow = given.follow.map((one) => {
    if (!isRecord(one)) return one;
    const { learn: _learn, slack: _slack, decision: _decision, ...rest } = one;
    return rest;
  });
  return { ...config, follow };
}

/** Why a run ended, in the words of then. */
const restartsThen: Readonly<Record<string, string>> = {
  worse_than_target: 'worse than target',
  counts_stuck: 'counts stuck',
  gap_too_long: 'too long since the last good reading',
  volume_counter_ran_back: 'volume counter ran back',
};
const restartOfThen = (why: string) => restartsThen[why] ?? why;

interface Restart {
  readonly why: string;
}
interface Proof extends Record<string, unknown> {
  readonly version: number;
  readonly print: number;
  readonly lastRestart?: Restart;
  readonly accepted?: { readonly lastRestart: Restart | null };
}

/** What a proof remembers as it was: what is left out today was null. What is new, such as the gaps, is left out. */
function proofOfThen({
  print,
  time,
  litres,
  repeats,
  run,
  notCounted,
  restarts,
  lastRestart,
  accepted,
}: Proof): unknown {
  const ended = (one: Restart | null | undefined) => (one ? { ...one, why: restartOfThen(one.why) } : null);
  return {
    version: 1,
    print,
    time: time ?? null,
    litres: litres ?? null,
    same: repeats,
    run: run ?? null,
    notCounted,
    restarts,
    lastRestart: ended(lastRestart),
    accepted: accepted === undefined ? null : { ...accepted, lastRestart: ended(accepted.lastRestart) },
  };
}

/** An event of a proof as it was: why a reading did not count was a sentence with what was found in it. */
function proofEventOfThen(
  { findings = [], missing = [], reason, ...event }: ProofEvent,
  before: Proof,
  sentence: (finding: unknown) => unknown,
): unknown {
  const { why, record } = event;
  if (record !== undefined)
    return { ...event, record: (proofOfThen({ ...before, accepted: record }) as Proof).accepted };
  if (why === undefined) return event;
  if (event.event === 'restarted') return { ...event, why: restartOfThen(why) };
  const said: Readonly<Record<string, unknown>> = {
    bad: `bad: ${findings.map(sentence).join(' ')}`,
    uncertain: `uncertain: ${findings.map(sentence).join(' ')}`,
    worse_than_target: 'worse than target',
    not_known: `not known at ${missing.join(', ')}`,
    few_counted: `few counted at ${missing.join(', ')}`,
    no_code: reason,
    not_newer: `not newer than the last, ${before.time}`,
  };
  return { ...event, why: said[why] ?? why };
}

interface ProofEvent extends Record<string, unknown> {
  readonly event: string;
  readonly why?: string;
  readonly findings?: readonly unknown[];
  readonly missing?: readonly string[];
  readonly record?: { readonly lastRestart: Restart | null };
}

/** Findings with the names that they and their members had, and without those that are new. */
function withFindingsOfThen(result: unknown, sentence: (finding: unknown) => unknown): unknown {
  if (Array.isArray(result)) return result.map((one) => withFindingsOfThen(one, sentence));
  if (!isRecord(result)) return result;
  const entries = Object.entries(result).map(([key, member]) => {
    if (key === 'unchecked' && Array.isArray(member)) return [key, member.map((code) => codesThen[code] ?? code)];
    if (key !== 'findings' || !Array.isArray(member)) return [key, withFindingsOfThen(member, sentence)];
    const findings = member.map((finding: Record<string, unknown>) => {
      if (!('value' in finding)) return finding;
      const { code, quality, value, limit } = finding;
      return { code: codesThen[String(code)] ?? code, quality, figure: value, limit, text: sentence(finding) };
    });
    return [key, findings];
  });
  return Object.fromEntries(entries);
}

/** Findings that have another name. */
const codesThen: Readonly<Record<string, string>> = { flat_size_distribution: 'air_or_droplets_likely' };

interface FlowStep {
  readonly events: readonly { readonly event: string }[];
}

/** Events of the flow controller that 0.1.0 did not know. */
const newEvents = [
  'oscillation',
  'oscillation_ended',
  'off_setpoint',
  'at_setpoint',
  'signal_frozen',
  'signal_frozen_ended',
  'speed_at_limit',
  'speed_off_limit',
];

/** A step of the flow controller with its events as they were: word and sentence. Events that are new are left out. */
function flowStepOfThen(step: FlowStep, sentence: (event: unknown) => unknown): unknown {
  const known = step.events.filter(({ event }) => newEvents.indexOf(event) < 0);
  return { ...step, events: known.map((event) => ({ code: event.event, text: sentence(event) })) };
}

/** Any controller: that of 0.1.0 started without one. */
const anyFlow = { mlPerMin: 100, gain: 0.1, integralSeconds: 2.5, leastPercent: 5, mostPercent: 90, slewPerSecond: 5 };

/**
 * The library under the names and forms of 0.1.0; `before` is that one itself, for the limits it had without being
 * told.
 */
export function faceOfThen(library: Face, before: Face): Face {
  const now = (name: string) => library[name] as Call | undefined;
  const call = (name: string, inputs: readonly unknown[]) =>
    (library[name] as (...all: unknown[]) => unknown)(...inputs);
  const bare = (library.defaultReadingLimits as { leastKPa?: unknown } | undefined)?.leastKPa === null;
  const limits = (own: unknown) => (bare ? withLimitsOfThen(own, before) : own);
  const config = (own: unknown) => (bare ? configOfThen(own, before) : own);

  /** What was prepared of a configuration: the walks change none. */
  const known: Record<string, WeakMap<object, unknown>> = {};
  const prepare = (what: string, own: unknown, taken: (own: unknown) => unknown): unknown => {
    const key = Object(own) as object;
    known[what] ??= new WeakMap();
    if (!known[what].has(key)) known[what].set(key, call(`prepare${what}`, [taken(own)]));
    return known[what].get(key);
  };

  /** `startX(config)` and `advanceX(config, state, input)` of what is prepared first today. */
  const living = (
    what: string,
    taken: (own: unknown) => unknown,
  ): Record<string, (...inputs: unknown[]) => unknown> => ({
    [`start${what}`]: (own, ...rest) => {
      if (now(`prepare${what}`) === undefined) return call(`start${what}`, [taken(own), ...rest]);
      const prepared = prepare(what, own, taken);
      if (rest.length === 0 || rest[0] === undefined) return call(`start${what}`, [prepared]);
      return (call(`resume${what}`, [prepared, ...rest]) as { state: unknown }).state;
    },
    [`advance${what}`]: (own, ...rest) => {
      if (now(`prepare${what}`) === undefined) return call(`advance${what}`, [taken(own), ...rest]);
      const [state, input, ...more] = rest;
      const prepared = prepare(what, own, taken);
      return call(`advance${what}`, [prepared, state, inputOfToday(input), ...more]);
    },
  });

  const same = (own: unknown) => own;
  const flow = living('FlowControl', same);
  const sentence = (finding: unknown) => call('findingText', [finding]);
  const told = (result: unknown) => (now('findingText') === undefined ? result : withFindingsOfThen(result, sentence));
  const monitor = living('Monitor', (own) => config(monitorOfToday(own)));
  const proof = (own: unknown) => proofOfToday(config(own));
  /** The states of today by those of then that they were told as. */
  const proofs = new WeakMap<object, Proof>();
  const proofTold = (state: Proof): unknown => {
    const then = withFindingsOfThen(proofOfThen(state), sentence) as object;
    proofs.set(then, state);
    return then;
  };
  const changed: Record<string, (...inputs: unknown[]) => unknown> = {
    possibleClasses: (known, table, ...rest) => call('possibleClasses', [table, known, ...rest]),
    likelyClasses: (known, table, ...rest) => call('likelyClasses', [table, known, ...rest]),
    codeInterval: (counts, options = {}) => {
      if (!isRecord(options)) return call('codeInterval', [library.iso4406, counts, options]);
      const { table, ...rest } = options;
      return underName('options.table', 'table', () => call('codeInterval', [table ?? library.iso4406, counts, rest]));
    },
    assessReading: (reading, own, ...rest) => told(call('assessReading', [reading, limits(own), ...rest])),
    ...living('Alarm', same),
    ...monitor,
    advanceMonitor: (...inputs) => told(monitor.advanceMonitor?.(...inputs)),
    startAcceptance: (own) => {
      if (now('prepareAcceptance') === undefined) return call('startAcceptance', [own]);
      return proofTold(call('startAcceptance', [prepare('Acceptance', own, proof)]) as Proof);
    },
    advanceAcceptance: (own, state, ...rest) => {
      if (now('prepareAcceptance') === undefined) return call('advanceAcceptance', [own, state, ...rest]);
      const prepared = prepare('Acceptance', own, proof);
      const before =
        proofs.get(Object(state)) ?? (call('resumeAcceptance', [prepared, state]) as { state: Proof }).state;
      const step = call('advanceAcceptance', [prepared, before, ...rest]) as { state: Proof; events: ProofEvent[] };
      const events = step.events.map((event) => proofEventOfThen(event, before, sentence));
      return { state: proofTold(step.state), events: withFindingsOfThen(events, sentence) };
    },
    // gone: `problemsOf` takes its place
    isBadConfiguration: (error) =>
      now('isBadConfiguration')?.(error as never) ?? (before.isBadConfiguration as Call)(error as never),
    ...flow,
    advanceFlowControl: (own, state, ...rest) => {
      if (now('resumeFlowControl') === undefined) return flow.advanceFlowControl?.(own, state, ...rest);
      // a state in the form of 0.1.0, which had no version
      const older = isRecord(state) && state.version === undefined;
      const resumed = older ? call('resumeFlowControl', [prepare('FlowControl', own, same), state]) : { state };
      const step = flow.advanceFlowControl?.(own, (resumed as { state: unknown }).state, ...rest);
      return flowStepOfThen(step as FlowStep, (event) => call('flowControlText', [event]));
    },
    startFlowControl: (percent) => {
      if (now('prepareFlowControl') === undefined) return call('startFlowControl', [percent]);
      const options = percent === undefined ? {} : { percent };
      const start = () => call('startFlowControl', [call('prepareFlowControl', [anyFlow]), options]);
      return underName('percent', 'options.percent', start);
    },
  };
  return Object.fromEntries(
    Object.entries({ ...library, ...changed }).map(([name, member]) => {
      if (typeof member !== 'function') return [name, member];
      const run = member as (...inputs: unknown[]) => unknown;
      return [name, (...inputs: unknown[]) => reworded(run(...inputs.map((one) => reworded(one, words))), wordsThen)];
    }),
  );
}
