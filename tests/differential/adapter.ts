/**
 * The library of today behind the face of 0.1.0: names, the order of arguments, words, and what is prepared once today. Only forms are
 * changed here. A figure or a verdict that differs is a difference, see `allowed.ts`.
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

/** Findings with the names that their members had, and without those that are new. */
function withFindingsOfThen(result: unknown, sentence: (finding: unknown) => unknown): unknown {
  if (Array.isArray(result)) return result.map((one) => withFindingsOfThen(one, sentence));
  if (!isRecord(result)) return result;
  const entries = Object.entries(result).map(([key, member]) => {
    if (key !== 'findings' || !Array.isArray(member)) return [key, withFindingsOfThen(member, sentence)];
    const findings = member.map((finding: Record<string, unknown>) => {
      if (!('value' in finding)) return finding;
      const { code, quality, value, limit } = finding;
      return { code, quality, figure: value, limit, text: sentence(finding) };
    });
    return [key, findings];
  });
  return Object.fromEntries(entries);
}

interface FlowStep {
  readonly events: readonly { readonly event: string }[];
}

/** A step of the flow controller with its events as they were: word and sentence. Events that are new are left out. */
function flowStepOfThen(step: FlowStep, sentence: (event: unknown) => unknown): unknown {
  const known = step.events.filter(({ event }) => event !== 'oscillation' && event !== 'oscillation_ended');
  return { ...step, events: known.map((event) => ({ code: event.event, text: sentence(event) })) };
}

/** Any controller: that of 0.1.0 started without one. */
const anyFlow = { mlPerMin: 100, gain: 0.1, integralSeconds: 2.5, leastPercent: 5, mostPercent: 90, slewPerSecond: 5 };

/** The library under the names and forms of 0.1.0; `before` is that one itself, for the limits it had without being told. */
export function faceOfThen(library: Face, before: Face): Face {
  const now = (name: string) => library[name] as Call | undefined;
  const call = (name: string, inputs: readonly unknown[]) =>
    (library[name] as (...all: unknown[]) => unknown)(...inputs);
  const bare = (library.defaultReadingLimits as { leastKPa?: unknown } | undefined)?.leastKPa === null;
  const limits = (own: unknown) => (bare ? withLimitsOfThen(own, before) : own);
  const config = (own: unknown) => (bare ? configOfThen(own, before) : own);

  /** `startX(config)` and `advanceX(config, state, input)` of what is prepared first today. */
  const living = (
    what: string,
    taken: (own: unknown) => unknown,
  ): Record<string, (...inputs: unknown[]) => unknown> => ({
    [`start${what}`]: (own, ...rest) => {
      if (now(`prepare${what}`) === undefined) return call(`start${what}`, [taken(own), ...rest]);
      const prepared = call(`prepare${what}`, [taken(own)]);
      if (rest.length === 0 || rest[0] === undefined) return call(`start${what}`, [prepared]);
      return (call(`resume${what}`, [prepared, ...rest]) as { state: unknown }).state;
    },
    [`advance${what}`]: (own, ...rest) => {
      if (now(`prepare${what}`) === undefined) return call(`advance${what}`, [taken(own), ...rest]);
      const [state, input, ...more] = rest;
      const prepared = call(`prepare${what}`, [taken(own)]);
      return call(`advance${what}`, [prepared, state, inputOfToday(input), ...more]);
    },
  });

  const same = (own: unknown) => own;
  const flow = living('FlowControl', same);
  const sentence = (finding: unknown) => call('findingText', [finding]);
  const told = (result: unknown) => (now('findingText') === undefined ? result : withFindingsOfThen(result, sentence));
  const monitor = living('Monitor', config);
  const acceptance = living('Acceptance', config);
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
    ...acceptance,
    advanceAcceptance: (...inputs) => told(acceptance.advanceAcceptance?.(...inputs)),
    // gone: `problemsOf` takes its place
    isBadConfiguration: (error) =>
      now('isBadConfiguration')?.(error as never) ?? (before.isBadConfiguration as Call)(error as never),
    ...flow,
    advanceFlowControl: (own, state, ...rest) => {
      if (now('resumeFlowControl') === undefined) return flow.advanceFlowControl?.(own, state, ...rest);
      // a state in the form of 0.1.0, which had no version
      const older = isRecord(state) && state.version === undefined;
      const resumed = older ? call('resumeFlowControl', [call('prepareFlowControl', [own]), state]) : { state };
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
