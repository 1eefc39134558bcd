// The readings as days: rolled up day by day, then joined two by two, since roll-ups join in any grouping.
import { classify, iso4406, meets, mergeRollUps, rollUp } from 'motescale';
import { day, minute, start } from './units.mjs';

/** A reading stands until the next one, but for fifteen minutes at most. */
const daily = { widthMs: day, holdMs: 15 * minute, originMs: start, levels: true };
const figures = {
  at4: ({ counts }) => counts.perMl[0],
  at6: ({ counts }) => counts.perMl[1],
  at14: ({ counts }) => counts.perMl[2],
  water: ({ waterSaturation }) => waterSaturation,
  warm: ({ celsius }) => celsius,
};
/** Each is trusted by itself: a counter that is stuck does not silence a thermometer. */
const trusted = { water: 'waterSaturation', warm: 'celsius' };
const names = Object.keys(figures);

/** Takes readings with their verdicts, and gives back the days at the end. Only the readings of one day are held. */
export function daysOf() {
  const parts = names.map(() => []);
  let open = names.map(() => []);
  let today = null;
  const roll = () => {
    names.forEach((_name, i) => {
      parts[i].push(rollUp(open[i], daily));
    });
    open = names.map(() => []);
  };
  return {
    take(reading, { figureQualities, codes }) {
      const { time } = reading;
      const date = Math.floor(time / day);
      if (today !== null && date !== today) roll();
      today = date;
      names.forEach((name, i) => {
        const quality = figureQualities[trusted[name] ?? 'counts'];
        const taken = { time, value: figures[name](reading), quality };
        open[i].push(i === 0 ? { ...taken, scaleNumbers: codes[0].classification.parts.map(scaleNumberOf) } : taken);
      });
    },
    close() {
      roll();
      const joined = parts.map(join);
      return joined[0].map((_day, i) => Object.fromEntries(names.map((name, k) => [name, joined[k][i]])));
    },
  };
}

function join(parts) {
  if (parts.length === 1) return parts[0];
  const pairs = [];
  for (let i = 0; i < parts.length; i += 2) pairs.push(mergeRollUps(parts[i], parts[i + 1] ?? [], daily));
  return join(pairs);
}

function scaleNumberOf({ class: number, mark }) {
  return mark === 'beyond' ? 29 : Number(number);
}

/** The days as a chart draws them: from least to most, and the mean. */
export function chartDays(days) {
  return ['at4', 'at6', 'at14'].map((name, i) => ({ size: [4, 6, 14][i], buckets: days.map((each) => each[name]) }));
}

/** What else was measured, for the same chart. */
export function chartFigures(days) {
  return [
    { figure: 'celsius', buckets: days.map(({ warm }) => warm) },
    { figure: 'waterSaturation', buckets: days.map(({ water }) => water) },
  ];
}

/**
 * The days as a report wants them: mean counts and the code they make. Days on which nothing usable came are left out.
 */
export function reportDays(days, target) {
  return days
    .filter(({ at4 }) => at4.mean !== null)
    .map(({ at4, at6, at14 }) => {
      const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [at4.mean, at6.mean, at14.mean].map(threeDigits) };
      const code = classify(iso4406, counts);
      return {
        time: at4.start,
        counts,
        codes: { 'ISO 4406': code.text },
        quality: at4.goodShare < 0.5 ? 'uncertain' : 'good',
        verdict: meets(iso4406, target, code).met ? 'in target' : 'above target',
      };
    });
}

function threeDigits(value) {
  return value >= 100 ? Math.round(value) : Number(value.toPrecision(3));
}
