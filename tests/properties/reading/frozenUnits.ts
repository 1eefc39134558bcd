/** Machines whose thermometer freezes ten times in a year, and four rules of what a freeze teaches. */
import { normalOf, shares } from '../../chance.ts';

export const hour = 3600000;
export const day: number = 24 * hour;
const year = 365 * day;
export const start = 1.8e12;

const wave = (t: number, ms: number) => Math.sin((2 * Math.PI * t) / ms);
const workdays = (t: number) => Math.floor(t / day) % 7 < 5 && t % day >= 7 * hour && t % day < 16 * hour;
const isOff = (t: number, from: number) => t > from * day && t < (from + 14) * day;
const hall = (t: number) => 19 + 1.5 * wave(t, day) + 3 * wave(t, year);
const cellar = (t: number) => 20 + 0.2 * wave(t, day) + 0.3 * wave(t, 90 * day);
const warm = (t: number) => 48 + 2 * wave(t, 19 * day);

interface Unit {
  readonly works: (t: number) => boolean;
  readonly room: (t: number) => number;
  readonly goal: (t: number) => number;
  /** How the load moves the temperature, °C. */
  readonly load: number;
}

export const units: Readonly<Record<string, Unit>> = {
  'round the clock': { works: () => true, room: hall, goal: (t) => 44 + 6 * wave(t, day), load: 0.3 },
  controlled: { works: () => true, room: hall, goal: (t) => 45 + 0.1 * wave(t, 19 * day), load: 0.05 },
  'workdays, hall': { works: workdays, room: hall, goal: warm, load: 0.7 },
  'workdays, cellar': { works: workdays, room: cellar, goal: warm, load: 0.7 },
  'two holidays of two weeks, cellar': {
    works: (t) => workdays(t) && !isOff(t, 120) && !isOff(t, 300),
    ...{ room: cellar, goal: warm, load: 0.7 },
  },
  'workdays after two months, cellar': {
    works: (t) => t < 60 * day || workdays(t),
    ...{ room: cellar, goal: warm, load: 0.7 },
  },
  'not used for a month, then workdays, cellar': {
    works: (t) => t > 30 * day && workdays(t),
    ...{ room: cellar, goal: warm, load: 0.7 },
  },
  'never, cellar': { works: () => false, room: cellar, goal: warm, load: 0 },
};

/** A year of temperatures as shown. */
export function temperatures({ works, room, goal, load }: Unit, every: number, step: number, seed: number): number[] {
  const next = shares(seed);
  let [celsius, moved] = [20, 0];
  return Array.from({ length: year / every }, (_x, i) => {
    const t = i * every + 6 * hour;
    moved = (every < hour ? 0.97 : 0) * moved + (every < hour ? 0.24 : 1) * load * normalOf(next);
    const at = works(t) ? goal(t) + moved : room(t);
    celsius = at + (celsius - at) * Math.exp(-every / (works(t) ? 1.2 * hour : 3 * hour));
    return Math.round((celsius + 0.02 * normalOf(next)) / step) * step;
  });
}

interface Frozen {
  readonly shown: readonly number[];
  readonly freezes: readonly { readonly from: number; readonly to: number }[];
}

/** The same with ten freezes of so long, at a time by chance in every 32 days from day 35 on; and when they are. */
export function frozen(values: readonly number[], every: number, ms: number, seed: number, dead: boolean): Frozen {
  const next = shares(seed);
  const shown = values.slice();
  const freezes = Array.from({ length: 10 }, (_x, k) => {
    const from = Math.floor((35 * day + k * 32 * day + next() * (31 * day - ms)) / every);
    const to = from + Math.round(ms / every);
    shown.fill(dead ? 0 : (values[from] as number), from, to);
    return { from, to };
  });
  return { shown, freezes };
}

/** What a run that was too long teaches, of these as a model by itself. */
export type Rule = '16 times the longest' | 'twice the longest' | 'nothing' | 'where it comes again';

/** At which readings a run is first called stuck. */
export function toldBy(rule: Rule, values: readonly number[], every: number): number[] {
  const told: number[] = [];
  let [run, longest, repeats, readings, ago, before] = [1, 0, 0, 0, Infinity, false];
  const limit = () => {
    const share = (repeats + 5) / (readings + 10);
    return Math.max(1 + Math.ceil(Math.log(1e-8) / Math.log(share)), Math.ceil(2.5 * longest) + 1);
  };
  const isJudged = (i: number) => (start + i * every) / day - Math.floor(start / day) >= (longest === 0 ? 30 : 8);
  for (let i = 1; i < values.length; i += 1) {
    if (values[i] === values[i - 1]) run += 1;
    else {
      const judged = isJudged(i - 1);
      const tooLong = judged && run >= 2 && run >= limit();
      let taught = run;
      if (rule === '16 times the longest' && judged) taught = Math.min(run, 16 * Math.max(longest, 2));
      if (rule === 'twice the longest' && judged) taught = Math.min(run, 2 * Math.max(longest, 2));
      if (rule === 'nothing' && tooLong) taught = 1;
      if (rule === 'where it comes again' && tooLong && !(ago <= 30 || ago * every <= 8 * day)) taught = 1;
      ago = tooLong ? 0 : ago + run;
      longest = Math.max(longest, taught);
      repeats += run - 1;
      readings += run;
      run = 1;
      if (rule === 'where it comes again' && readings > 99999) {
        repeats = Math.floor(repeats / 2);
        readings = Math.ceil(readings / 2);
      }
    }
    const is = isJudged(i) && run >= 2 && run >= limit();
    if (is && !before) told.push(i);
    before = is;
  }
  return told;
}
