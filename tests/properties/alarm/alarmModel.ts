/**
 * An alarm by its definition, for comparison: the whole history is looked at anew each time, and nothing is kept.
 * Written from the rules of OPC 10000-9 (4.8, 5.8, B.1.5) and OPC 30030 (8.9, 8.13) as docs/alarms.md states them, in
 * tables of moments and not in steps.
 */
import type { AlarmConfig, AlarmInput, AlarmReading } from '../../../src/alarm/index.ts';

interface Good {
  readonly place: number;
  /** As of when it counts, and when it was taken. */
  readonly time: number;
  readonly taken: number;
  readonly value: number;
}

/** What is known of an alarm after a history. */
export interface Known {
  readonly name: string;
  readonly active: boolean;
  /** Times of raises, returns and re-alarms, as they happened, and which of them were told. */
  readonly raised: readonly number[];
  readonly returned: readonly number[];
  readonly toldRaised: readonly number[];
  readonly toldReturned: readonly number[];
}

const isReading = (input: AlarmInput): input is AlarmReading => input.kind === undefined || input.kind === 'reading';

/** The time each input counts as of; a reading older than the last reading counts as none. */
function counted(inputs: readonly AlarmInput[]): { input: AlarmInput; at: number; taken: boolean }[] {
  return inputs.map((input, i) => {
    const before = inputs.slice(0, i);
    const at = Math.max(input.time, ...before.map(({ time }) => time));
    const newest = Math.max(Number.NEGATIVE_INFINITY, ...before.filter(isReading).map(({ time }) => time));
    return { input, at, taken: !isReading(input) || input.time >= newest };
  });
}

/**
 * How far each good reading lies beyond the setpoint (above 0: beyond; for a change, 0 is beyond), in the order they
 * came.
 */
function beyondOf(config: AlarmConfig, good: readonly Good[], k: number): number {
  const { taken, value } = good[k] as Good;
  const round = (x: number) => Math.round(x * 1000) / 1000;
  if (config.type === 'high') return round(value - config.setpoint);
  if (config.type === 'low') return round(config.setpoint - value);
  const sign = config.type === 'rise' ? 1 : -1;
  const part = (at: number) => Math.floor((at * 24) / (config.withinMs as number));
  const seen = good.slice(0, k + 1).filter((one) => part(one.taken) >= part(taken) - 24);
  return round(Math.max(...seen.map((one) => sign * (value - one.value))) - config.setpoint);
}

/**
 * After which inputs it is suppressed by design: from a mode that suppresses to the next that does not, or to a good
 * reading without one, when the last mode is older than a good reading may be.
 */
function suppressedAfterEach(config: AlarmConfig, inputs: readonly AlarmInput[]): boolean[] {
  let last: number | null = null;
  return counted(inputs).map(({ input, at, taken }) => {
    const mode = input.kind === 'command' || !taken ? undefined : input.mode;
    if (mode !== undefined) last = config.suppressedInModes?.includes(mode) ? at : null;
    else if (last !== null && taken && isReading(input) && input.value !== null && input.quality !== 'bad')
      if (at - last > (config.staleAfterMs ?? Number.POSITIVE_INFINITY)) last = null;
    return last !== null;
  });
}

/** Every change of the condition: after which input it came, when, and to what. */
function changesOf(config: AlarmConfig, inputs: readonly AlarmInput[]): { place: number; time: number; on: boolean }[] {
  const list = counted(inputs);
  const good: Good[] = [];
  list.forEach(({ input, at, taken }, place) => {
    if (taken && isReading(input) && input.value !== null && input.quality !== 'bad')
      good.push({ place, time: at, taken: input.time, value: input.value });
  });
  const changes: { place: number; time: number; on: boolean }[] = [];
  const rate = config.type === 'rise' || config.type === 'fall';
  const suppressed = suppressedAfterEach(config, inputs);
  const endsAt = (place: number) => suppressed[place - 1] === true && suppressed[place] !== true;
  let from = 0;
  good.forEach(({ place, time, taken }, k) => {
    const on = changes.length % 2 === 1;
    const stale = config.staleAfterMs ?? Number.POSITIVE_INFINITY;
    if (k > 0 && time - (good[k - 1] as Good).time > stale) from = k;
    const since = (good[k - 1]?.place ?? -1) + 1;
    if (suppressed.some((_, i) => i >= since && i <= place && endsAt(i))) from = k;
    const other = (j: number) => {
      const beyond = beyondOf(config, good, j);
      if (!on && suppressed[(good[j] as Good).place]) return false;
      if (on) return beyond < -(config.deadband ?? 0);
      return rate ? beyond >= 0 : beyond > 0;
    };
    let first = k + 1;
    while (first > from && other(first - 1)) first -= 1;
    if (first > k) return;
    const onDelay = config.onDelayMs ?? 0;
    const delay = on ? (config.offDelayMs ?? onDelay) : onDelay;
    if (taken - (good[first] as Good).taken < delay) return;
    changes.push({ place, time, on: !on });
    from = k + 1;
  });
  return changes;
}

/** All there is to say after a history. */
export function modelOf(config: AlarmConfig, inputs: readonly AlarmInput[]): Known {
  const list = counted(inputs);
  const changes = changesOf(config, inputs);
  const conditionAt = (place: number) => changes.filter((change) => change.place <= place).length % 2 === 1;
  const now = list.length === 0 ? 0 : (list[list.length - 1] as { at: number }).at;

  // when it is shelved, from input to input: [begins after input, ends before input or at a time]
  const silent: boolean[] = [];
  let shelf: { until: number; oneShot: boolean } | null = null;
  let out = false;
  // when the last command was given that began or ended a silence: what is not newer begins none
  let last = -Infinity;
  const shelvedAfter: boolean[] = [];
  const outAfter: boolean[] = [];
  const suppressedAfter = suppressedAfterEach(config, inputs);
  list.forEach(({ input, at }, place) => {
    if (shelf !== null && shelf.until <= at) shelf = null;
    silent.push(shelf !== null || out || suppressedAfter[place] === true || suppressedAfter[place - 1] === true);
    const returns = changes.some((change) => change.place === place && !change.on);
    if (returns && shelf?.oneShot) shelf = null;
    if (input.kind === 'command') {
      const told = Math.min(at, input.time);
      const isNewer = input.time > last;
      let counts = input.command === 'unshelve' || input.command === 'return_to_service';
      if (input.command === 'shelve' && shelf === null && input.forMs <= (config.longestShelfMs ?? 28800000)) {
        counts = isNewer && told + input.forMs > at;
        if (counts) shelf = { until: told + input.forMs, oneShot: input.oneShot === true };
      }
      if (input.command === 'unshelve') shelf = null;
      if (input.command === 'remove_from_service' && !out && isNewer) counts = out = true;
      if (input.command === 'return_to_service') out = false;
      if (counts) last = Math.max(last, told);
    }
    shelvedAfter.push(shelf !== null);
    outAfter.push(out);
  });

  const raised = changes.filter(({ on }) => on);
  const returned = changes.filter(({ on }) => !on);
  const active = conditionAt(list.length - 1);
  const stood = raised.map((from, k) => ({ from, end: returned[k] }));
  type Stood = (typeof stood)[number];
  const every = config.reAlarmAfterMs ?? Number.POSITIVE_INFINITY;
  /** Times it was raised anew, up to one. */
  const anew = ({ from, end }: Stood, upTo: number): number[] => {
    const last = Math.min(upTo, end?.time ?? upTo);
    return Array.from({ length: Math.floor((last - from.time) / every) }, (_, k) => from.time + (k + 1) * every);
  };
  const isActive = ({ from, end }: Stood, place: number) => from.place < place && (!end || end.place >= place);
  const given = (word: string) =>
    list.flatMap(({ input, at }, place) =>
      input.kind === 'command' && input.command === word ? [{ time: input.time, at, place }] : [],
    );
  // acknowledged: someone has, and not before it was raised
  const acknowledged = given('acknowledge').filter(({ time, at, place }) => {
    const last = stood.filter(({ from }) => from.place < place).pop();
    if (last === undefined) return false;
    const again = isActive(last, place) ? anew(last, at) : [];
    return time >= Math.max(last.from.time, ...again);
  });
  const unacknowledged = stood.some((one) => {
    const again = anew(one, now).map((due) => list.findIndex(({ at }, i) => i > one.from.place && at >= due) - 1);
    const since = Math.max(one.from.place, ...again);
    return !acknowledged.some(({ place }) => place > since);
  });
  // reset: after it has returned, and not before that
  const resets = given('reset').filter(({ time, place }) => {
    const end = returned.filter((one) => one.place < place).pop();
    return end !== undefined && time >= end.time && !stood.some((one) => isActive(one, place));
  });
  const end = stood.filter((one) => one.end !== undefined).pop()?.end;
  const latched =
    !active && end !== undefined && config.latching === true && !resets.some(({ place }) => place > end.place);
  const at = list.length - 1;
  const seen = unacknowledged ? 'unacknowledged' : 'acknowledged';
  let name = unacknowledged ? 'returned_to_normal_unacknowledged' : 'normal';
  if (latched) name = `latched_${seen}`;
  if (active) name = `${seen}_alarm`;
  if (shelvedAfter[at]) name = 'shelved';
  if (suppressedAfter[at]) name = 'suppressed_by_design';
  if (outAfter[at]) name = 'out_of_service';
  const times = (some: readonly { time: number }[]) => some.map(({ time }) => time);
  const told = (some: readonly { place: number; time: number }[]) => times(some.filter(({ place }) => !silent[place]));
  return {
    name,
    active,
    raised: times(raised),
    returned: times(returned),
    toldRaised: told(raised),
    toldReturned: told(returned),
  };
}
