// A working year of readings every five minutes of three hydraulic units: events, trends, a forecast, a plan, a month
// in words, files.
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { periodFigures, periodSummary } from 'motescale';
import { heading, say, shown, subheading, table } from './page.mjs';
import { writeFiles } from './year/files.mjs';
import { planOf } from './year/plan.mjs';
import { trendsOf } from './year/trend.mjs';
import { day, start, unitsOf } from './year/units.mjs';
import { watch } from './year/watch.mjs';
import { dateOf, happenings, momentOf } from './year/words.mjs';

const out = new URL('out/', import.meta.url);

/** Prints the year, or a shorter span of so many days with the same events; `threads` watches all units at once. */
export async function printYear({ days = 365, folder = out, threads = true } = {}) {
  heading('Lock gates, a working year: three hydraulic units, a reading every five minutes');
  say(
    `From ${dateOf(start)} to ${dateOf(start + (days - 1) * day)}, times in UTC; up to ${whole(288 * days)} ` +
      'readings a unit. Counts ' +
      'in 40 mL, sizes in µm(c). Each reading: read, assessed, classified, alarms, trends, rolled up.',
  );
  const units = unitsOf(days);
  const keeps = units.map(monthOf);
  const watched = await Promise.all(units.map((unit, i) => (threads ? onThread : watch)(unit, days, keeps[i])));
  for (const one of watched) printUnit(one);
  const dirty = watched.find(({ unit }) => unit.cart !== undefined);
  const plan = planOf(dirty);
  printPlan(dirty.unit, plan);
  printMonthInWords(dirty, keeps[watched.indexOf(dirty)]);
  const names = await writeFiles(folder, watched, dirty, plan);
  subheading('Files');
  say(`In ${shownPath(folder)}:`);
  for (const name of names) say(name, '    ');
}

function printUnit(watched) {
  const { unit, counted, accepted } = watched;
  subheading(`${unit.name}: target ${unit.target}, alarm above ${unit.alarm}`);
  const { good, uncertain, bad, inTarget } = counted;
  say(
    `${whole(good + uncertain + bad)} readings: ${whole(good)} good, ${whole(uncertain)} uncertain, ${whole(bad)} ` +
      'bad. ' +
      `In target: ${percent(inTarget, good + uncertain)} of the usable ones.`,
  );
  const happened = happenings(watched);
  console.log();
  if (happened.length === 0) say('No alarm, no change found, no gap.');
  for (const { time, text } of happened) say(`${momentOf(time)}  ${text}`, '  ', ' '.repeat(20));
  if (accepted !== null) printProof(accepted, unit);
  printTrends(trendsOf(watched), unit);
}

function printProof({ run, required, target, text, notCounted, restarts, lastRestart }, { flush }) {
  console.log();
  const hours = (ms) => `${Math.round(ms / 360000) / 10} h`;
  say(
    `Flush proved ${momentOf(run.to)}, ${hours(run.to - flush.from)} after it began: ${run.readings} consecutive ` +
      'good readings at ' +
      `${target} or better over ${hours(run.to - run.from)} and ${whole(run.toLitres - run.fromLitres)} L ` +
      `(required: ${required.readings}, ${hours(required.ms)}, ${whole(required.litres)} L); the last ${text}. ` +
      `Before that ${notCounted} did not count, and ${restarts === 1 ? 'one run' : `${restarts} runs`} ended` +
      `${lastRestart ? `, with ${restartText(lastRestart)}` : ''}. ` +
      'It shows that the oil sampled met the target; whether the unit may run is decided by those who answer for it.',
  );
}

function restartText({ text, time, why }) {
  return `${text} at ${momentOf(time).slice(11)} (${why.replaceAll('_', ' ')})`;
}

function printTrends({ trends, forecast }, unit) {
  console.log();
  say('Trend of 6 µm(c): scale numbers a month with 95 % limits that know how alike neighbouring means are.');
  table(
    ['from', 'to', 'means', 'a month', 'limits', 'p', 'found'],
    trends.map(({ from, to, everyDays, means, perMonth, low, high, p, verdict }) => [
      dateOf(from),
      dateOf(to),
      `${means.length} of ${everyDays} d`,
      signed(perMonth),
      low === null ? '-' : `${signed(low)} to ${signed(high)}`,
      p === null ? '-' : p < 0.001 ? '<0.001' : p.toFixed(3),
      verdict === 'not_distinguishable' ? 'not told' : verdict,
    ]),
    'lllrrrl',
  );
  say(`Forecast: ${forecastText(forecast, unit)}`);
}

function forecastText({ outcome, level, now, time, earliest, latest, last }, { target }) {
  const leaves = `6 µm(c) leaves the ${level} of ${target}`;
  const on = (days) => dateOf(days * day);
  const span = latest === null ? `not before ${on(earliest)}, no end can be told` : `${on(earliest)} to ${on(latest)}`;
  const soonest = earliest > last + 5 * 365 ? 'not within five years' : `not before ${on(earliest)}`;
  switch (outcome) {
    case 'expected':
      return (
        `${leaves} about ${on(time)} (95 %: ${span}), if it goes on as it did. ` +
        'It foresees no sudden failure and puts off no inspection.'
      );
    case 'reached':
      return `${leaves} already: the line stands at ${now.toFixed(1)}.`;
    case 'never':
      return `never: ${leaves} on no trend that these means allow (now ${now.toFixed(1)}).`;
    default:
      return (
        'not distinguishable from memory and chance: the means agree with a slow rise and with none ' +
        `(now ${now.toFixed(1)}` +
        `${earliest === null ? ').' : `); ${leaves} ${soonest}.`}`
      );
  }
}

function printPlan(unit, { at, code, tank, time, settles, returned }) {
  subheading(`${unit.name}: plan for a filter cart, made ${momentOf(at)}`);
  say(`In the tank: ${code}, ${whole(tank.litres)} L. The cart filters ${tank.litresPerMin} L/min.`);
  say(
    'Before the cart is coupled or a housing opened: stop the unit, lock it out, release all pressure, including ' +
      'accumulators, and let the oil ' +
      "cool. Bond cart and tank. The cart's pump has a relief valve, and its way back is free.",
  );
  console.log();
  const row = (name, cells) => [name, ...cells];
  table(
    ['size, µm(c)', ...tank.counts.sizes],
    [
      row('per mL now', tank.counts.perMl.map(shown)),
      row('filtration ratio of the cart', tank.beta),
      row(
        'comes in, thousands a minute',
        tank.ingressionPerMin.map((each) => shown(each / 1000)),
      ),
      row('settles at, per mL', settles.perMl.map(shown)),
      row(
        `minutes to ${unit.target}`,
        tank.counts.sizes.map((size) => minutesOf(time, size)),
      ),
    ],
  );
  console.log();
  if (time.minutes === null) say(`${unit.target} is never reached: ${time.slowestSize} µm(c) prevents it.`);
  else {
    say(
      `Run the cart for ${Math.ceil(time.minutes)} min at least; ${time.slowestSize} µm(c) decides. So says a ` +
        'well-mixed tank: reality takes longer.' +
        (returned === undefined
          ? ''
          : ` Here it took ${Math.round((returned - unit.cart.from) / 60000)} min until the alarm returned, ` +
            'half an hour of delay included.'),
    );
  }
  say('The plan proves nothing; take a sample. Whether the gate may run is decided by those who answer for it.');
}

function minutesOf({ sizes }, size) {
  const found = sizes.find((one) => one.size === size);
  if (found === undefined) return '-';
  return found.minutes === null ? 'never' : Math.ceil(found.minutes);
}

function printMonthInWords(watched, keep) {
  const { unit, kept } = watched;
  subheading('One month in words, for an e-mail');
  const events = happenings(watched).filter(({ time }) => time >= keep.from && time < keep.to);
  const text = periodSummary(
    periodFigures(kept, { title: `${unit.name}, hydraulic unit`, target: unit.target, events }),
  );
  console.log(text.replace(/^(?=.)/gm, '  ').trimEnd());
}

/** The calendar month in which a filter collapses: its readings are kept whole. */
function monthOf({ collapse }) {
  if (collapse === undefined) return undefined;
  const date = new Date(collapse.from);
  const first = (months) => Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + months, 1);
  return { from: first(0), to: first(1) };
}

/** Each on a thread of its own, with little room: the readings stream through and are not kept. */
function onThread(unit, days, keep) {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('year/worker.mjs', import.meta.url), {
      workerData: { unit, days, keep },
      resourceLimits: { maxYoungGenerationSizeMb: 8, maxOldGenerationSizeMb: 96 },
    });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
}

function whole(number) {
  return String(Math.round(number)).replace(/\B(?=(\d{3})+$)/g, ',');
}

function percent(part, all) {
  const tenths = Math.floor((1000 * part) / all);
  return tenths === 1000 ? 'all' : `${(tenths / 10).toFixed(1)} %`;
}

function signed(value) {
  const text = value.toFixed(3);
  return Number(text) === 0 ? '0.000' : value > 0 ? `+${text}` : text;
}

function shownPath(folder) {
  return relative(process.cwd(), fileURLToPath(folder)) || '.';
}
