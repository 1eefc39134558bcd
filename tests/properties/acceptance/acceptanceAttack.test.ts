/**
 * An attacker sends readings in any order, with gaps, wrong clocks, changing quality and repetitions, and wants a proof
 * that is not due. Beside it an honest reader looks through the whole log, with nothing but docs/flush.md in hand: what
 * does not count, what ends a run, what time and volume prove. It knows of each reading what it is worth, since it is
 * told how it was made. No proof may stand that it refuses.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AcceptanceConfig,
  type AcceptanceReading,
  advanceAcceptance,
  prepareAcceptance,
  startAcceptance,
} from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const hour = 60 * minute;

/** What a reading is worth: it counts, it ends the run, or it says nothing. */
type Worth = 'counts' | 'ends' | 'nothing';

/**
 * How readings are made, for the target 18/16/13, and what each is worth. `n` keeps the counts of two from being the
 * same.
 */
const kinds: Record<string, { readonly worth: Worth; make(n: number): Partial<AcceptanceReading> }> = {
  clean: { worth: 'counts', make: (n) => ({ counts: counted(16000 - n, 3500 - n, 330) }) },
  atTheLimit: { worth: 'counts', make: (n) => ({ counts: counted(25000 - n, 6400 - n, 790) }) },
  codeMet: { worth: 'counts', make: () => ({ codes: { iso4406: '18/16/13' } }) },
  codeBetter: { worth: 'counts', make: () => ({ codes: { iso4406: '15/12/9' } }) },
  codeCleanest: { worth: 'nothing', make: () => ({ codes: { iso4406: '0/0/0' } }) },
  fewAndFarInside: { worth: 'counts', make: (n) => ({ counts: counted(500 + (n % 7), 100, 12) }) },
  dirty: { worth: 'ends', make: (n) => ({ counts: counted(16000 - n, 6500 + n, 330) }) },
  dirtyAndUncertain: {
    worth: 'ends',
    make: (n) => ({ counts: counted(27000 + n, 3500, 330), qualities: { counts: 'uncertain' } }),
  },
  codeWorse: { worth: 'ends', make: () => ({ codes: { iso4406: '18/17/13' } }) },
  codeAtLeastWorse: { worth: 'ends', make: () => ({ codes: { iso4406: '17/15/>=14' } }) },
  noFlow: { worth: 'nothing', make: (n) => ({ counts: counted(16000 - n, 3500, 330), mlPerMin: 0 }) },
  noFlowAndDirty: { worth: 'nothing', make: (n) => ({ counts: counted(90000 + n, 35000, 3300), mlPerMin: 0 }) },
  toldBad: {
    worth: 'nothing',
    make: (n) => ({ counts: counted(16000 - n, 3500, 330), qualities: { counts: 'bad' } }),
  },
  toldBadAndDirty: {
    worth: 'ends',
    make: (n) => ({ counts: counted(90000 + n, 35000, 3300), qualities: { counts: 'bad' } }),
  },
  risingAndDirty: { worth: 'ends', make: (n) => ({ counts: rising(900 + n, 35000, 3300 + n) }) },
  rising: { worth: 'nothing', make: (n) => ({ counts: rising(30 + n, 3500, 330) }) },
  tooManyAtOne: {
    worth: 'ends',
    make: (n) => ({ counts: cumulativeCounts({ 6: 350 + n / 10, 14: 33 }), codes: { iso4406: '*/-/-' } }),
  },
  uncertain: {
    worth: 'nothing',
    make: (n) => ({ counts: counted(16000 - n, 3500, 330), qualities: { counts: 'uncertain' } }),
  },
  withoutASize: { worth: 'nothing', make: (n) => ({ counts: cumulativeCounts({ 4: 1600 - n / 10, 6: 350 }) }) },
  codeOpen: { worth: 'nothing', make: () => ({ codes: { iso4406: '17/>=15/13' } }) },
  codeTooMany: { worth: 'ends', make: () => ({ codes: { iso4406: '17/15/*' } }) },
  codeNotCounted: { worth: 'nothing', make: () => ({ codes: { iso4406: '17/15/-' } }) },
  bare: { worth: 'nothing', make: () => ({ celsius: 40 }) },
  fewAndNear: {
    worth: 'nothing',
    make: (n) => ({ counts: cumulativeCounts({ 4: 190, 6: 40, 14: 15 - (n % 2) }, { volumeMl: 0.2 }) }),
  },
};

function counted(four: number, six: number, fourteen: number) {
  return cumulativeCounts({ 4: four, 6: six, 14: fourteen }, { volumeMl: 10 });
}

/** As no oil can have them: 14 µm is enough for class 13, the others beyond or within. */
function rising(four: number, six: number, fourteen: number) {
  const perMl = [four, six, fourteen].map((one) => one / 10);
  return { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl, counted: [four, six, fourteen], volumeMl: 10 };
}

/** A line of the log: what came, what it is worth, and of which it is a repetition. */
interface Line {
  readonly reading: AcceptanceReading;
  readonly worth: Worth;
  readonly frozen: boolean;
  readonly again: boolean;
}

/** What the attacker does next. */
const move = fc.oneof(
  {
    weight: 15,
    arbitrary: fc.record({
      kind: fc.constantFrom('clean', 'clean', 'atTheLimit', 'codeMet', 'codeBetter', 'fewAndFarInside'),
    }),
  },
  { weight: 5, arbitrary: fc.record({ kind: fc.constantFrom(...Object.keys(kinds)) }) },
  { weight: 1, arbitrary: fc.record({ freeze: fc.integer({ min: 1, max: 4 }) }) },
  { weight: 2, arbitrary: fc.record({ again: fc.nat({ max: 12 }), many: fc.integer({ min: 1, max: 8 }) }) },
  {
    weight: 2,
    arbitrary: fc.record({
      step: fc.constantFrom(-30 * hour, -hour, -10 * minute, 9 * minute, 45 * minute, 13 * hour),
    }),
  },
  { weight: 1, arbitrary: fc.record({ pause: fc.constantFrom(hour, 3 * hour, 12 * hour) }) },
  { weight: 1, arbitrary: fc.record({ counter: fc.constantFrom(-500, 400) }) },
) as fc.Arbitrary<Move>;
interface Move {
  readonly kind?: string;
  readonly freeze?: number;
  readonly again?: number;
  readonly many?: number;
  readonly step?: number;
  readonly pause?: number;
  readonly counter?: number;
}

/** Plays the moves: a true time that the host knows, a clock of the sensor that is set to and fro, a volume counter. */
function logOf(moves: readonly Move[], received: boolean, shuffle: readonly number[]): Line[] {
  const log: Line[] = [];
  let truly = 1.7e12;
  let clock = 0;
  let litres = 1000;
  const send = (kind: string, frozen: boolean, counts?: AcceptanceReading['counts']) => {
    truly += 10 * minute;
    litres += 100;
    const made = (kinds[kind] as (typeof kinds)[string]).make(log.length);
    const reading = {
      ...made,
      ...(counts === undefined ? {} : { counts }),
      time: truly + clock,
      litres,
      ...(received ? { receivedAt: truly + 1000 } : {}),
    };
    const { worth } = kinds[kind] as (typeof kinds)[string];
    log.push({ reading, worth, frozen, again: false });
  };
  for (const { kind, freeze, again, many, step, pause, counter } of moves) {
    if (kind !== undefined) send(kind, false);
    if (freeze !== undefined) {
      const still = counted(16000 - log.length, 3401, 330);
      for (let i = 0; i < freeze + 2; i += 1) send('clean', true, still);
    }
    // the queue gives old readings again, those that help or all of them
    if (again !== undefined && many !== undefined) {
      const old = log.filter(({ worth }) => many % 2 === 0 || worth === 'counts').slice(-again - many);
      log.push(...old.slice(0, many));
    }
    clock += step ?? 0;
    truly += pause ?? 0;
    litres = Math.max(0, litres + (counter ?? 0));
  }
  // and here and there two come in the wrong order
  for (const place of shuffle) {
    const at = place % Math.max(1, log.length - 1);
    if (log.length > 1) log.splice(at, 2, log[at + 1] as Line, log[at] as Line);
  }
  const texts = log.map(({ reading }) => JSON.stringify({ ...reading, receivedAt: 0 }));
  return log.map((line, i) => ({ ...line, again: texts.indexOf(texts[i] as string) < i }));
}

interface Sorted {
  readonly line: Line;
  readonly clock: number;
  readonly late: boolean;
  /** Dated before one that was worse, and not shown to be of now. */
  readonly old: boolean;
}

/**
 * The log sorted out: repetitions and what came late left aside, but for what ends a run; `clock` counts how often the
 * clock was set back.
 */
function sortedOut(log: readonly Line[]): Sorted[] {
  let clock = 0;
  let worseAt = -Infinity;
  let last: AcceptanceReading | null = null;
  let older: number[] = [];
  return log
    .filter(({ again, worth }) => !again || worth === 'ends')
    .map((line) => {
      const { time, receivedAt } = line.reading;
      const before = time <= worseAt;
      if (line.worth === 'ends') worseAt = Math.max(worseAt, time);
      const inOrder: boolean = last === null || time > last.time;
      if (!inOrder && last !== null && !line.again) {
        older = time > (older[older.length - 1] ?? Infinity) ? [...older, time] : [time];
        // by the host's clock two are enough; one may have been overtaken on its way
        const told = receivedAt !== undefined && last.receivedAt !== undefined;
        const later = told && receivedAt > (last.receivedAt as number);
        if (time < last.time && (told ? later && older.length >= 2 : older.length >= 3)) {
          clock += 1;
          last = null;
        }
      }
      const late: boolean = line.again || (last !== null && time <= last.time);
      if (late) return { line, clock, late, old: before };
      const passed: number = last === null ? Number.NaN : time - last.time;
      const came: number = (receivedAt ?? Number.NaN) - (last?.receivedAt ?? Number.NaN);
      const old: boolean = before && !(came >= passed / 2 && came <= 2 * passed);
      last = line.reading;
      older = [];
      return { line, clock, late, old };
    });
}

/** Whether three in a row have the very same counts: thousands of particles never repeat so. */
function isFrozen(three: readonly Line[]): boolean {
  const texts = three.map(({ reading }) => JSON.stringify(reading.counts));
  return three.length === 3 && three.every(({ frozen }) => frozen) && texts.every((text) => text === texts[0]);
}

/**
 * What the honest reader says of a proof at the last line: why it is not due; empty where it may stand. It goes back
 * from there to whatever ends a run, and asks whether what is left can be enough. Time it grants between two lines that
 * count, with none in between that does not, as far as the sensor's clock, the host's, and the longest gap allow.
 */
function refusal(of: AcceptanceConfig, log: readonly Line[]): string {
  if ((log[log.length - 1] as Line).again) return 'the last is a repetition';
  const sorted = sortedOut(log);
  const end = sorted[sorted.length - 1] as (typeof sorted)[number];
  if (end.line.worth !== 'counts' || end.late || end.old) return 'the last does not count';
  const most = of.maxGapMs ?? Math.max(hour, (2 * (of.leastMs ?? 0)) / (of.readings - 1));
  const inOrder = sorted.filter(({ late }) => !late).map(({ line }) => line);
  const counting: AcceptanceReading[] = [];
  let ms = 0;
  let litres = 0;
  let doubted = false;
  for (const { line, clock, late, old } of sorted.reverse()) {
    const { reading, worth } = line;
    const place = inOrder.indexOf(line);
    if (worth === 'ends' || clock !== end.clock) break;
    if (late) continue;
    if (isFrozen(inOrder.slice(Math.max(0, place - 2), place + 1))) break;
    if (worth === 'nothing' || old) {
      doubted = true;
      continue;
    }
    const next = counting[0];
    if (next !== undefined) {
      const passed = next.time - reading.time;
      if (of.maxGapMs !== undefined && passed > of.maxGapMs) break;
      const came = next.receivedAt === undefined ? passed : next.receivedAt - (reading.receivedAt as number);
      if (!doubted && passed <= most) ms += Math.max(0, Math.min(passed, came));
      if ((next.litres as number) < (reading.litres as number)) break;
      if (!doubted) litres += (next.litres as number) - (reading.litres as number);
    }
    doubted = false;
    counting.unshift(reading);
  }
  if (counting.length < of.readings) return `${counting.length} readings`;
  if (ms < (of.leastMs ?? 0)) return `${ms / minute} minutes`;
  return litres < (of.leastLitres ?? 0) ? 'too few litres' : '';
}

const configs = fc
  .record({
    readings: fc.integer({ min: 2, max: 6 }),
    leastMs: fc.constantFrom(0, 30 * minute, 2 * hour),
    leastLitres: fc.constantFrom(0, 0, 450),
    maxGapMs: fc.constantFrom(null, 15 * minute, 2 * hour),
  })
  .map(({ maxGapMs, ...rest }): AcceptanceConfig => {
    const of = { table: iso4406, target: '18/16/13', ...rest };
    return maxGapMs === null ? of : { ...of, maxGapMs };
  });

/** How many lines it takes until the proof is there; null where it never is. */
function acceptedAfter(of: AcceptanceConfig, log: readonly Line[]): number | null {
  const prepared = prepareAcceptance(of);
  let state = startAcceptance(prepared);
  for (let i = 0; i < log.length; i += 1) {
    state = JSON.parse(JSON.stringify(advanceAcceptance(prepared, state, (log[i] as Line).reading).state));
    if (state.accepted !== undefined) return i + 1;
  }
  return null;
}

describe('no proof stands that an honest reader of the log refuses', () => {
  test('each kind of reading is worth what it is said to be', () => {
    const of = prepareAcceptance({ table: iso4406, target: '18/16/13', readings: 9 });
    for (const [name, { worth, make }] of Object.entries(kinds)) {
      const first = { time: 0, ...(kinds.clean as (typeof kinds)[string]).make(1) };
      const { state } = advanceAcceptance(of, startAcceptance(of), first);
      const after = advanceAcceptance(of, state, { time: minute, ...make(2) }).state.run?.readings ?? 'ends';
      expect([name, after === 2 ? 'counts' : after === 1 ? 'nothing' : after]).toEqual([name, worth]);
    }
  });

  test.each([
    ['by the clock of the sensor alone', false],
    ['where the host says when each came in', true],
  ])('%s', (_name, received) => {
    let proofs = 0;
    fc.assert(
      fc.property(
        configs,
        fc.array(move, { minLength: 4, maxLength: 40 }),
        fc.array(fc.nat({ max: 100 }), { maxLength: 4 }),
        (of, moves, shuffle) => {
          const log = logOf(moves, received, shuffle);
          const at = acceptedAfter(of, log);
          if (at === null) return;
          proofs += 1;
          const why = refusal(of, log.slice(0, at));
          if (why !== '' && process.env.SHOW)
            console.log(
              why,
              { ...of, table: 0 },
              log
                .slice(0, at)
                .map((l) =>
                  [l.worth, l.again ? 'again' : '', l.frozen ? 'frozen' : '', (l.reading.time - 1.7e12) / minute].join(
                    ' ',
                  ),
                ),
            );
          expect(why).toBe('');
        },
      ),
      { numRuns: some(20000, 200) },
    );
    // an attacker who never gets a proof shows nothing
    expect(proofs).toBeGreaterThan(some(20000, 200) / 5);
  });
});
