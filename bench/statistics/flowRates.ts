/**
 * How often the events of flow control are wrong, and how soon they come where they are right. Fixed seeds.
 *
 *     npx esbuild bench/statistics/flowRates.ts --bundle --platform=node --format=esm --outfile=/tmp/flow.mjs
 *     node /tmp/flow.mjs sound 3000       false events of sound plants, and the overshoot of a start
 *     node /tmp/flow.mjs frozen 300       meters that stop at their last figure, 12 hours each
 */
import { type Case, type CaseOptions, caseOf, course, type Fault } from './flowPlants.ts';

const [what = 'sound', countText = '300', seedText = '1', noise = '0.03', warm = '0'] = process.argv.slice(2);
// noise up to this share of the setpoint; a warm-up of so many seconds
const [most, warming] = [Number(noise), Number(warm)];
const [count, first] = [Number(countText), Number(seedText) * 1e5];
const at = (list: readonly number[], share: number) => {
  const sorted = list.slice().sort((a, b) => a - b);
  return sorted.length === 0
    ? Number.NaN
    : (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] as number);
};
const spread = (list: readonly number[]) => [0.5, 0.95, 1].map((share) => at(list, share).toFixed(2)).join(' ');
const cases = (options: CaseOptions) =>
  Array.from({ length: count }, (_, k) => caseOf(first + k, options)).filter((one): one is Case => one !== null);
const isTold = /^(off_setpoint|oscillation|signal_frozen|speed_at_limit|signal_lost)$/;

function sound(): void {
  for (const feedForward of [false, true])
    for (const steps of [
      [0.1, 0.5, 1],
      [2, 5, 10],
      [30, 60, 120, 600],
    ]) {
      let [hours, settled, n] = [0, 0, 0];
      const overshoots: number[] = [];
      const told: Record<string, number> = {};
      const odd: string[] = [];
      for (const one of cases({ feedForward, noise: most })) {
        if (!steps.includes(one.stepSeconds)) continue;
        const length = Math.max(1500, Math.min(20000, Math.round(14400 / one.stepSeconds)));
        const found = course(one, length, Infinity, undefined, 0.6, warming);
        n += 1;
        hours += found.hours;
        if (found.settled) {
          settled += 1;
          overshoots.push(found.overshoot);
        }
        for (const { event, seconds } of found.events)
          if (isTold.test(event)) {
            const word = found.settled ? event : `${event} (not settled)`;
            told[word] = (told[word] ?? 0) + 1;
            if (found.settled) odd.push(`${one.seed}@${seconds.toFixed(0)} ${event} each ${one.stepSeconds} s`);
          }
      }
      console.log(
        feedForward ? 'with' : 'without',
        steps.join('/'),
        'plants',
        n,
        'settled',
        settled,
        'h',
        hours.toFixed(0),
      );
      console.log(
        '   overshoot',
        spread(overshoots),
        'above 20 %',
        (overshoots.filter((x) => x > 0.2).length / overshoots.length).toFixed(3),
      );
      console.log('   told', JSON.stringify(told), odd.slice(0, 6).join('; '));
    }
}

const faults: Record<string, Fault> = {
  frozen: (_, __, of) => of.held as number,
  trembling: (_, __, of) => (of.held as number) + 0.001 * of.setpoint * (2 * of.chance.share() - 1),
  zero: () => 0,
  lost: () => null,
  'some lost': (flow, _, of) => (of.chance.share() < 0.05 ? null : flow),
  'tenth lost': (flow, _, of) => (of.chance.share() < 0.1 ? null : flow),
  x1: (flow) => flow,
};

function faulty(name: string): void {
  const peaks: number[] = [];
  const minutes: number[] = [];
  const shareThen: number[] = [];
  const events: Record<string, number> = {};
  let [n, told, late, dangerous, quiet, hours] = [0, 0, 0, 0, 0, 0];
  for (const one of cases({})) {
    if (one.stepSeconds > 60) continue;
    const before = Math.max(3600, 200 * one.stepSeconds);
    const length = Math.round(Math.min(before + 12 * 3600, before + 40000 * one.stepSeconds) / one.stepSeconds);
    const found = course(one, length, before, faults[name]);
    n += 1;
    hours += (length * one.stepSeconds - before) / 3600;
    peaks.push(found.peak);
    if (found.peak > 1.5) dangerous += 1;
    const after = found.events.filter(({ event, seconds }) => seconds >= before && isTold.test(event));
    for (const { event } of found.events.filter(({ seconds }) => seconds >= before))
      events[event] = (events[event] ?? 0) + 1;
    const one1 = after[0];
    if (one1 === undefined) {
      if (found.peak > 1.2) quiet += 1;
      continue;
    }
    told += 1;
    minutes.push((one1.seconds - before) / 60);
    shareThen.push(one1.share);
    if (one1.share > 1.5) late += 1;
  }
  console.log(
    name,
    'plants',
    n,
    'h',
    hours.toFixed(0),
    'told',
    told,
    'flow at it',
    spread(shareThen),
    'after 1.5:',
    late,
    'min',
    spread(minutes),
  );
  console.log(
    '   peak',
    spread(peaks),
    'above 1.5:',
    dangerous,
    'above 1.2 and not told:',
    quiet,
    JSON.stringify(events),
  );
}

if (what === 'sound') sound();
else faulty(what);
