// A month of daily bottle samples from the hydraulic units of a canal's lock gates: code, classes, target, and what the
// code leaves open.
import { readFileSync } from 'node:fs';
import {
  as4059Cumulative,
  as4059Differential,
  classify,
  codeInterval,
  cumulativeCounts,
  equivalentDustMgPerL,
  guaranteeingCode,
  iso4406,
  likelyClasses,
  limitsOf,
  meets,
  nas1638,
  parseCsv,
  possibleClasses,
  targetProbability,
} from 'motescale';
import { heading, say, shown, subheading, table } from './page.mjs';

const read = (name) => parseCsv(readFileSync(new URL(name, import.meta.url), 'utf8'));

export function printMonth() {
  heading('Lock gates, March: a bottle a day from three hydraulic units');
  say(
    'An example by itself, of another season than the working year below. Raw counts in 25 mL by the counter of a ' +
      'laboratory, sizes in ' +
      'µm(c), ISO 11171.',
  );
  const readings = readingsOf(read('lock-gates-march.csv'));
  for (const [unit, target] of read('lock-gate-units.csv').rows) {
    const own = readings.filter((reading) => reading.unit === unit);
    printUnit(unit, target, own);
  }
}

/** Rows of the file as readings: the size columns are raw counts in the volume of the row. */
function readingsOf({ header, rows }) {
  const sizes = header.slice(3).map(Number);
  return rows.map(([time, unit, volumeMl, ...counted]) => ({
    time,
    unit,
    counts: cumulativeCounts(Object.fromEntries(sizes.map((size, i) => [size, counted[i]])), { volumeMl }),
  }));
}

function printUnit(unit, target, readings) {
  const last = readings.at(-1);
  const { counts } = last;
  subheading(`${unit}: ${last.time.slice(0, 10)}, target ${target}`);
  const iso = classify(iso4406, counts);
  const found = meets(iso4406, target, counts);
  table(
    ['size, µm(c)', ...counts.sizes],
    [
      ['counted in 25 mL', ...counts.counted],
      ['per mL', ...counts.perMl.map(shown)],
    ],
  );
  console.log();
  table(
    ['standard', 'result', 'decided by'],
    [
      ['ISO 4406', iso.text, '4, 6 and 14 µm(c)'],
      ...[as4059Differential, as4059Cumulative, nas1638].map((standard) => {
        const { text, worst, worstColumns } = classify(standard, counts);
        return [standard.title, text, `${worstColumns.join(', ')} (${worst})`];
      }),
    ],
    'lll',
  );
  console.log();
  const margins = found.margins.map(({ column, classes }) => `${column}: ${classes > 0 ? '+' : ''}${classes}`);
  say(`Target ${target} ${found.met ? 'met' : 'NOT met'}. Scale numbers to spare: ${margins.join(', ')}.`);
  // the syringe is good for 1 %; 3 % of the sizes are common practice, a certificate says it better
  const { probability } = targetProbability(iso4406, target, counts, { volume: 0.01, sizing: 0.03 });
  say(
    `With all errors in mind (volume 1 %, sizes 3 %) it is met in truth with a probability of ${percent(probability)}.`,
  );
  const { low, high } = codeInterval(iso4406, counts);
  const settled = low.text === high.text;
  say(`Of chance alone (95 %) the code ${settled ? 'is settled' : `could be ${low.text} to ${high.text}`}.`);
  printMonthOf(target, readings);
  printWhatTheCodeSays(iso, classify(nas1638, counts));
}

/** 0.97 as "97 %"; never 0 or 100. */
function percent(probability) {
  if (probability > 0.99) return 'more than 99 %';
  return probability < 0.01 ? 'less than 1 %' : `${Math.round(100 * probability)} %`;
}

function printMonthOf(target, readings) {
  const outcomes = readings.map(({ time, counts }) => ({ time, ...meets(iso4406, target, counts) }));
  const missed = outcomes.filter(({ met }) => !met).map(({ time }) => Number(time.slice(8, 10)));
  const dust = readings.map(({ counts }) => equivalentOf(counts));
  say(
    `In the month: ${outcomes.length - missed.length} of ${outcomes.length} days in target` +
      `${missed.length === 0 ? '' : `, out of it on March ${spans(missed)}`}; ` +
      `dust equivalent ${shown(Math.min(...dust))} to ${shown(Math.max(...dust))} mg/L (a picture, not a weight).`,
  );
}

function equivalentOf({ sizes, perMl }) {
  return equivalentDustMgPerL(
    cumulativeCounts(Object.fromEntries(sizes.slice(0, 3).map((size, i) => [size, perMl[i]]))),
  ).mgPerL;
}

/**
 * The heart of it: from the ISO code alone, what is certain of the NAS class, what is likely, and what no code tells.
 */
function printWhatTheCodeSays(iso, nas) {
  const known = limitsOf(iso4406, iso);
  const possible = possibleClasses(nas1638, known);
  const likely = likelyClasses(nas1638, known);
  const { code, unseen } = guaranteeingCode(nas1638, nas.worst.replace('>', ''));
  say(
    `What ${iso.text} says of NAS 1638: certainly ${possible.lowest} to ${possible.highest}, ` +
      `likely ${likely.lowest} to ${likely.highest}; counted in full it is ${nas.text}.`,
  );
  say(
    `To be sure of class ${nas.worst.replace('>', '')} between 5 and 25 µm the code would have to be ${code.text} ` +
      'or better; ' +
      `of ${unseen.join(', ')} no code of three sizes can be sure.`,
  );
}

/** 18, 19, 20, 25 as "18-20, 25". */
function spans(days) {
  const found = [];
  for (const day of days) {
    const open = found.at(-1);
    if (open && open[1] === day - 1) open[1] = day;
    else found.push([day, day]);
  }
  return found.map(([from, to]) => (from === to ? from : `${from}-${to}`)).join(', ');
}
