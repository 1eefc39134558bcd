/**
 * What may differ from 0.1.0, and why: each reason stands word for word in docs/changelog.md. All else is equal to the
 * bit.
 */
import { openChange } from '../../src/monitor/followed/means.ts';
import { type Difference, isThrown, type Thrown } from './compare.ts';

export interface Allowed {
  /** As in docs/changelog.md. */
  readonly reason: string;
  readonly covers: (difference: Difference) => boolean;
}

/** Both are errors, told by code and parameter. */
const errorsOf = ({ endBefore, endAfter }: Difference): readonly [then: Thrown, now: Thrown] | null =>
  isThrown(endBefore) && isThrown(endAfter) ? [endBefore, endAfter] : null;

/** The path without the places in lists. */
const plain = (path: string): string => path.replace(/\[\w+\]/g, '[]');

/** The words of a sentence, whatever their order and what joins them. */
const wordsOf = (text: unknown): string =>
  String(text)
    .replace(/ and |, /g, ' ')
    .split(' ')
    .sort()
    .join(' ');
/** The sentence on a viscosity that is too high as it is now; others may stand beside it in one text. */
const asNow = (text: unknown): string =>
  String(text)
    .replace('Viscosity is', 'Viscosity, measured or by the temperature, is')
    .replace(
      /(is \d[\d.]* mm²\/s, above .*: wait until the oil is warmer\.)/,
      '$1 Stop a sample pump meanwhile, unless its inlet takes oil so thick.',
    );
/** The sentence on coincidence as it is now. */
const remedyAsNow = (text: unknown): string => {
  const remedy =
    'Dilute a bottle sample; on line use a sensor with a higher limit: a smaller flow does not make the oil';
  const fall =
    'Counts that fall from here although nobody cleaned the oil may be those of a counter that sees nothing for all ' +
    'the droplets or dirt.';
  return String(text).replace('not right; dilute the sample.', `not right. ${remedy} cleaner. ${fall}`);
};
const eventOf = (one: unknown): string => String(Object(one).event);
const codeOf = (one: unknown): string => String(Object(one).code);

/** Whether two sizes nearer than a factor of two have nearly as many particles, in a reading that was judged. */
function isNearlyEqual({ name, inputs }: Difference): boolean {
  const reading = name === 'assessReading' ? inputs[0] : inputs[2];
  const counts = (reading as { counts?: { sizes: number[]; perMl: number[] } } | undefined)?.counts;
  const { sizes = [], perMl = [] } = counts ?? {};
  return perMl.some((n, i) => i > 0 && (sizes[i] ?? 0) < 2 * (sizes[i - 1] ?? 0) && n > (perMl[i - 1] ?? 0) / 2);
}

const findingsOf = (result: unknown): readonly string[] => {
  const { verdict, findings } = Object(result);
  return (verdict?.findings ?? findings ?? []).map(codeOf);
};
/** Findings of then that are none today, and the other way. */
const lost = ({ endBefore, endAfter }: Difference) =>
  findingsOf(endBefore).filter((code) => !findingsOf(endAfter).includes(code));
const gained = ({ endBefore, endAfter }: Difference) =>
  findingsOf(endAfter).filter((code) => !findingsOf(endBefore).includes(code));

/** Why an acceptance of today did not count the reading. */
const toldWhy = ({ endAfter }: Difference) => JSON.stringify(Object(endAfter).events?.[0] ?? '');

interface Proof extends Readonly<Record<string, unknown>> {
  readonly time: number | null;
  readonly run: { readonly from: number; readonly to: number; readonly ms: number } | null;
}

/** The states of a proof before a reading, each library its own, and after it. */
function proofs({ inputs, inputsAfter, endBefore, endAfter }: Difference) {
  const proof = (state: unknown): Proof | null => (Object(state).version === 1 ? (state as Proof) : null);
  const [then, now] = [proof(Object(endBefore).state), proof(Object(endAfter).state)];
  const [rule, reading] = [inputs[0] as { leastMs?: number }, inputs[2] as { time: number }];
  return { was: proof(inputs[1]), is: proof(inputsAfter[1]), then, now, rule, reading };
}

/** What decides how a proof goes on, but for the time and volume proved and what was not looked at. */
const goingOn = ({ time, litres, run, accepted }: Proof): string =>
  JSON.stringify([time, litres, run, accepted], (key, member) =>
    key === 'ms' || key === 'litres' || key === 'unchecked' ? undefined : member,
  );

/**
 * Whether the two proofs had gone apart before a reading, each by its own library; in what they have counted, that
 * alone.
 */
function apart(difference: Difference): boolean {
  const { was, is } = proofs(difference);
  if (was === null || is === null) return false;
  if (goingOn(was) !== goingOn(is)) return true;
  const [, member] = /^\.state\.(notCounted|restarts|lastRestart)\b/.exec(difference.path) ?? [];
  return member !== undefined && JSON.stringify(was[member]) !== JSON.stringify(is[member]);
}

/** When the shelf of an alarm ends; null where it has none. */
const shelfOf = (state: unknown): number | null => Object(Object(state).shelf).until ?? null;

export const allowed: readonly Allowed[] = [
  {
    reason: 'and `reportReading` left them out',
    covers: ({ name, before }) => /^(reportReading|reportRows|periodFigures)$/.test(name) && before === undefined,
  },
  {
    reason: 'No zero below zero comes out of `coincidenceLoss`, `correctCoincidence` and `toCsv`',
    covers: ({ name, before, after }) =>
      (/^(coincidenceLoss|correctCoincidence)$/.test(name) && before === 0 && after === 0) ||
      (name === 'toCsv' && String(before).replace(/(^|[,;\t\n])-0(?=[,;\t\r\n])/g, '$10') === after),
  },
  {
    reason: '`parseCsv` refuses a file read with the wrong separator where no line gives it away',
    covers: ({ name, inputs, path, endBefore, endAfter }) =>
      name === 'parseCsv' &&
      path === '' &&
      /^[^\n"]*;[^\n"]*\n[^\n"]*;/.test(String(inputs[0])) &&
      (endBefore as { header?: unknown[] }).header?.length === 1 &&
      isThrown(endAfter) &&
      endAfter.error === 'bad_csv',
  },
  {
    reason: '`fittingsTooLow` tells where a `k` stands alone in flow that is not turbulent',
    covers: ({ name, path, before }) =>
      /^(lineFlow|flowForPressure|suction)/.test(name) && /\.fittingsTooLow$/.test(path) && before === undefined,
  },
  {
    reason: 'a line is judged where its pressure is least, and `highPoint` names the place',
    covers: ({ name, path, before, after }) =>
      /^(flowForPressure|suction)/.test(name) && /\.highPoint$/.test(path) && before === undefined && after === null,
  },
  {
    reason: '`atmosphereKPa` is 30 to 300, `inletLimitKPa` from 30 up',
    covers: ({ inputs, endAfter }) => {
      if (!isThrown(endAfter)) return false;
      const [, member] = /^line\.(inletLimitKPa|atmosphereKPa)$/.exec(endAfter.parameter) ?? [];
      return member !== undefined && endAfter.error === 'out_of_range' && Object(inputs[0])[member] < 30;
    },
  },
  {
    reason: '`suctionByTemperature` has `keptTo`',
    covers: ({ name, path, before }) => name === 'suctionByTemperature' && path === '.keptTo' && before === undefined,
  },
  {
    reason: '`timeToReachCode` lists in `uncertain` the sizes',
    covers: ({ name, path, before }) => name === 'timeToReachCode' && path === '.uncertain' && before === undefined,
  },
  {
    reason: '`filtrationRatios` leaves out a size of which none was counted on either side',
    covers: ({ name, path, before, after, endBefore }) => {
      const isLeftOut = after === undefined && Object(before).beta === null;
      const isShorter = path === '[length]' && Number(after) < Object(endBefore).length;
      return name === 'filtrationRatios' && (isLeftOut || isShorter);
    },
  },
  {
    reason: '`inchHgToKPa` what lies below a vacuum by the gauge',
    covers: ({ name, inputs, endAfter }) =>
      /^(psi|bar|inchHg)ToKPa$/.test(name) &&
      isThrown(endAfter) &&
      endAfter.error === 'out_of_range' &&
      Number(inputs[0]) < -1,
  },
  {
    reason: 'refuse a slope below 500 or above 3000 K',
    covers: ({ inputs, endAfter }) => {
      const { b } = Object(inputs[0]) as { readonly b?: unknown };
      return (
        isThrown(endAfter) &&
        endAfter.parameter === 'line.b' &&
        endAfter.error === 'out_of_range' &&
        (Number(b) < 500 || Number(b) > 3000)
      );
    },
  },
  {
    reason: '`estimateIngression` gives `low` and `high`',
    covers: ({ name, path, before }) =>
      name === 'estimateIngression' && /^\.(low|high)$/.test(path) && before === undefined,
  },
  {
    reason: "`blandAltman` and `seasonalKendall` say `independence: 'assumed'`",
    covers: ({ name, path, before }) =>
      /^(blandAltman|seasonalKendall)$/.test(name) && path === '.independence' && before === undefined,
  },
  {
    reason: '`unproved` says why time or volume did not count',
    covers: ({ name, path, before }) =>
      name === 'advanceAcceptance' && /\.unproved$/.test(path) && before === undefined,
  },
  {
    reason: 'The record of a proof says what a protocol needs',
    covers: ({ name, path, before }) =>
      name === 'advanceAcceptance' &&
      before === undefined &&
      (/\.run\.(notCounted|withoutCounts|withoutVolume)$/.test(path) ||
        /\.(accepted|record)\.(title|edition|leftOut|worst|readings|began)\b/.test(path)),
  },
  {
    reason: '`readings` of `acceptanceWanting` are at least as many as the time wanting takes with `maxGapMs`',
    covers: ({ name, path, before, after, inputs }) =>
      name === 'advanceAcceptance' &&
      /\.wanting\.readings$/.test(path) &&
      Object(inputs[0]).longestGapMs > 0 &&
      Number(after) > Number(before),
  },
  {
    reason: '(`counts_equal`, new; `run.counts`)',
    covers: ({ name, path, before }) => /Acceptance$/.test(name) && /\.run\.counts$/.test(path) && before === undefined,
  },
  {
    reason: 'A proof holds its first three gaps against each other',
    covers: ({ name, path, before }) => /Acceptance$/.test(name) && /\.run\.early\b/.test(path) && before === undefined,
  },
  {
    reason: 'After a silence `raised` and `returned` carry `state`',
    covers: ({ name, path, before, endAfter }) => {
      const [, place] = /^\.events\[(\d+)\]\.state$/.exec(path) ?? [];
      const event = Object(Object(endAfter).events?.[Number(place)]);
      return /^advance(Alarm|Monitor)$/.test(name) && before === undefined && event.standing === true;
    },
  },
  {
    reason: 'A shelve of an alarm that is shelved is refused (`already_shelved`).',
    // and from there on, until the shelf of then has ended too
    covers: ({ name, path, inputs, inputsAfter, endAfter }) => {
      if (name === 'alarmStateName') return shelfOf(inputs[0]) !== shelfOf(inputsAfter[0]);
      if (name !== 'advanceAlarm' || !/^\.events\b/.test(path)) return false;
      const refused = (event: unknown) => Object(event).reason === 'already_shelved';
      return Object(endAfter).events?.some(refused) || shelfOf(inputs[1]) !== shelfOf(inputsAfter[1]);
    },
  },
  {
    reason: 'The density of an oil is 500 to 2000 kg/m³ everywhere',
    covers: ({ endAfter }) => isThrown(endAfter) && /\.kgPerM3$/.test(endAfter.parameter),
  },
  {
    reason: 'refuse a rise, or a fall, of more metres than the tube is long',
    covers: ({ endAfter }) => isThrown(endAfter) && /\.riseMetres$/.test(endAfter.parameter),
  },
  {
    reason: 'All functions that ask for the temperature of an oil refuse what none has',
    covers: ({ name, inputs, endAfter }) =>
      name === 'viscosityAt' &&
      isThrown(endAfter) &&
      endAfter.parameter === 'celsius' &&
      Math.abs(Number(inputs[1]) - 85) > 165,
  },
  {
    reason: '`temperatureAt` answers within these (`no_answer` elsewhere; it said 13,897 °C)',
    covers: ({ name, before, endAfter }) =>
      name === 'temperatureAt' &&
      isThrown(endAfter) &&
      endAfter.error === 'no_answer' &&
      Math.abs(Number(before) - 85) > 165,
  },
  {
    reason: 'A damaged state of a flow controller is refused by the name of its member',
    covers: ({ name, path, before, after }) =>
      name === 'advanceFlowControl' && path === '.parameter' && before === 'state' && /^state\.\w/.test(String(after)),
  },
  {
    reason: 'Closed sets of words are snake_case.',
    covers: ({ before, after }) =>
      typeof before === 'string' && /^[a-z]+([ -][a-z]+)+$/.test(before) && before.replace(/[ -]/g, '_') === after,
  },
  {
    reason: '`resumeAlarm` and `resumeMonitor` are the door for a state from outside, of 0.1.0 too.',
    covers: ({ name, path, inputs, endBefore, endAfter }) =>
      (/^start(Alarm|Monitor)$/.test(name) && !isThrown(endBefore) && !isThrown(endAfter)) ||
      (/^advance(Alarm|Monitor)$/.test(name) && (/^\.state\b/.test(path) || !('version' in Object(inputs[1])))),
  },
  {
    reason: '`likelyClasses` holds the truth in at least 97 % of a stated population',
    covers: ({ name, endBefore, endAfter }) => name === 'likelyClasses' && !isThrown(endBefore) && !isThrown(endAfter),
  },
  {
    reason: '`meets` has three answers: `met` is null where a size is missing and none fails',
    covers: ({ path, after }) => /\.met$/.test(path) && after === null,
  },
  {
    reason: 'Where no particle was counted of a size, there is none of a larger one that was not counted',
    covers: ({ name, path, before, after, inputs }) => {
      const counts = name === 'meets' ? inputs[2] : Object(inputs[2]).counts;
      const { perMl } = Object(counts);
      const ends = Array.isArray(perMl) && perMl.includes(0);
      const decided = /\.met$/.test(path) ? before === false : /^\.verdict\.inTarget$/.test(path) && before === null;
      return ends && ((decided && after === true) || /\.missing\[\w+\]$/.test(path));
    },
  },
  {
    reason: '`meets` lists in `uncertain` also the columns of tables without a mark for few particles',
    covers: ({ path, before }) =>
      /^(.*\.outcome)?\.uncertain\[\w+\]$/.test(path) && (before === undefined || before === 0),
  },
  {
    reason: 'ISO 4406 is judged by the upper limit of the count',
    covers: ({ path, before }) => /\.uncertain\[\w+\]$/.test(path) && before !== undefined && before !== 0,
  },
  {
    reason: 'the upper code of `codeInterval` takes that limit',
    covers: ({ name, path, before }) =>
      name === 'codeInterval' &&
      ((/\.class$/.test(path) && before === null) ||
        (/\.mark$/.test(path) && before === 'not counted') ||
        (/\.text$/.test(path) && / or dirtier$/.test(`${before}`))),
  },
  {
    reason: 'the highest class of GOST 17216 by µm(c) counts sees the range from 100 to 200',
    covers: ({ name, path, inputs }) =>
      name === 'possibleClasses' &&
      path === '.highest' &&
      inputs.some((input) => /gost17216/.test(`${Object(input).id ?? input}`)),
  },
  {
    reason: '`guaranteeingCode` takes every target of the table',
    covers: ({ name, endBefore }) => name === 'guaranteeingCode' && isThrown(endBefore),
  },
  {
    reason: '`contradicted` names the alarms whose setpoint the reading lies beyond',
    covers: ({ path, before, endAfter }) => {
      const [, place] = /^\.events\[(\d+)\]\.beyond$/.exec(path) ?? [];
      return before === undefined && eventOf(Object(endAfter).events?.[Number(place)]) === 'contradicted';
    },
  },
  {
    reason: 'A size that a table names for a microscope only is placed among its others',
    covers: ({ name, path, before, after, inputs, endBefore, endAfter }) => {
      const ids = [inputs[0], inputs[1]].map((input) => Object(input).table ?? Object(input).id ?? input);
      if (!ids.some((id) => /gost17216|cc1246/.test(`${id}`))) return false;
      if (name === 'meets') return isThrown(endBefore) && / or dirtier$/.test(`${inputs[1]}`);
      const [then, now] = [Object(endBefore).missing, Object(endAfter).missing];
      const fewer = Array.isArray(then) && Array.isArray(now) && now.every((column) => then.includes(column));
      const text = /\.text$|^$/.test(path) && before === `${after} or dirtier`;
      return text || (fewer && now.length < then.length && /^\.missing\[\w+\]$/.test(path));
    },
  },
  {
    reason: 'of a size that was not counted there are no more particles than of the next smaller one',
    covers: ({ name, path, before, after, endBefore, endAfter }) => {
      const outcomesOf = (end: unknown): unknown[] =>
        name === 'meets'
          ? [end]
          : (Object(end).verdict?.codes ?? []).map(({ outcome }: { outcome: unknown }) => outcome);
      const [then, now] = [outcomesOf(endBefore), outcomesOf(endAfter)];
      const fewer = then.map((outcome, i) => {
        const [all, left] = [Object(outcome).missing, Object(now[i]).missing] as [unknown, unknown];
        const lists = Array.isArray(all) && Array.isArray(left);
        return lists && left.length < all.length && left.every((column) => all.includes(column));
      });
      if (path === '.verdict.inTarget') return fewer.includes(true) && before === null && after === true;
      const place = name === 'meets' ? 0 : Number(/^\.verdict\.codes\[(\d+)\]\.outcome\b/.exec(path)?.[1]);
      const decided = before === false && after === true;
      return fewer[place] === true && (/\.missing\[\w+\]$/.test(path) || (/\.met$/.test(path) && decided));
    },
  },
  {
    reason: 'carries the mark `no_dirtier` in the parts of a class over several',
    covers: ({ path, before, after }) => /\.mark$/.test(path) && before === 'not counted' && after === 'no_dirtier',
  },
  {
    reason: 'A class that a size not counted could make worse carries the mark `or_dirtier` there',
    covers: ({ name, path, after, endAfter, inputs }) =>
      (/\.mark$/.test(path) && after === 'or_dirtier') ||
      (/\.text$|^$/.test(path) && typeof after === 'string' && / or dirtier$/.test(after)) ||
      (name === 'parseCode' && / or dirtier$/.test(String(inputs[1])) && !isThrown(endAfter)),
  },
  {
    reason: 'is read as `at_most` in each, and `limitsOf` gives no band of it',
    covers: ({ name, path, inputs, before, after }) =>
      (name === 'parseCode' && /\.mark$/.test(path) && before === 'beyond' && after === 'at most') ||
      (name === 'limitsOf' && /^\.bands\b/.test(path) && /^>/.test(`${Object(inputs[1]).text ?? inputs[1]}`)),
  },
  {
    reason: 'The `lostShare` of `suspension` is right to 1e-13 also where hardly anything is lost.',
    covers: ({ name, path, before, after }) =>
      name === 'suspension' &&
      path === '.lostShare' &&
      Number(after) < 0.002 &&
      Math.abs(Number(after) - Number(before)) < 1e-6 * Number(after),
  },
  {
    reason: '`forecastCrossing` takes its limits after Fieller',
    covers: ({ name, endBefore, endAfter }) =>
      name === 'forecastCrossing' && !isThrown(endBefore) && !isThrown(endAfter),
  },
  {
    reason: '`forecastCrossing` refuses times beyond 100,000,000 days where `unitsPerDay` is left out',
    covers: ({ name, inputs, endAfter }) =>
      name === 'forecastCrossing' &&
      isThrown(endAfter) &&
      /^times\[\d+\]$/.test(endAfter.parameter) &&
      (inputs[0] as number[]).some((time) => Math.abs(time) > 1e8),
  },
  {
    reason: 'of several with as few particles the largest is named',
    covers: ({ path, before, after }) => {
      const [then, now] = [before, after].map((text) => /\bAt .* fewer than .*\(\d+ at ([\d.]+) µm/.exec(String(text)));
      if (!/(\.findings\[\d+\]\.text|\.why)$/.test(path) || !then || !now || !(Number(then[1]) < Number(now[1])))
        return false;
      return wordsOf(asNow(before)) === wordsOf(String(after).replace(`at ${now[1]} `, `at ${then[1]} `));
    },
  },
  {
    reason: 'Where one reprint only was read, `place` says so.',
    covers: ({ path }) => /\.source\.(place|standing|edition)$/.test(path),
  },
  {
    reason: '`figureQualities` of an assessment and a verdict says how far each figure is to be trusted.',
    covers: ({ path, before }) => /(^|verdict)\.figureQualities$/.test(path) && before === undefined,
  },
  {
    reason: 'A code of a verdict carries `code` and `from`.',
    covers: ({ path, before }) => /\.codes\[\]\.(code|from)$/.test(plain(path)) && before === undefined,
  },
  {
    reason: 'Of the particles counted it must be flat beyond what chance makes of them.',
    covers: (difference) => {
      const { path, before, after } = difference;
      if (/findings\[\+\]$/.test(path)) return after === undefined && codeOf(before) === 'air_or_droplets_likely';
      return /^(\.verdict)?\.quality$/.test(path) && lost(difference).includes('air_or_droplets_likely');
    },
  },
  {
    reason: 'It also looks at sizes nearer than a factor of two (4 and 6, 14 and 21 µm), with 100 particles or more:',
    covers: (difference) => {
      const { name, path, before, after, endAfter } = difference;
      if (!isNearlyEqual(difference)) return false;
      if (/findings\[\+\]$/.test(path)) return before === undefined && codeOf(after) === 'air_or_droplets_likely';
      const at = /findings\[(\d+)\]\.(figure|limit|text|sizes)/.exec(path);
      if (at !== null) return findingsOf(endAfter)[Number(at[1])] === 'air_or_droplets_likely';
      if (name === 'advanceAcceptance') return /^\.events\[\]\.quality$/.test(plain(path)) && after === 'uncertain';
      return /^(\.verdict)?\.quality$/.test(path) && gained(difference).includes('air_or_droplets_likely');
    },
  },
  {
    reason:
      'New findings: `flagged_by_instrument`, `code_disagrees`, `count_missing`, `pressure_high`, `flow_pulsating`,',
    covers: (difference) => {
      const { path, before, after } = difference;
      if (/findings\[\+\]$/.test(path)) return before === undefined && codeOf(after) === 'flow_pulsating';
      return (
        /^\.verdict\.quality$/.test(path) && after === 'uncertain' && gained(difference).includes('flow_pulsating')
      );
    },
  },
  {
    reason: 'is told by the new finding `channel_empty`',
    covers: (difference) => {
      const { path, before, after } = difference;
      if (/findings\[\+\]$/.test(path)) return before === undefined && codeOf(after) === 'channel_empty';
      return path === '.quality' && after === 'bad' && gained(difference).includes('channel_empty');
    },
  },
  {
    reason: '`no_particles` finds a counter that has died but for a pulse of noise now and then',
    covers: (difference) => {
      const { name, path, before, after, inputsAfter } = difference;
      if (/findings\[\+\]$/.test(path)) return before === undefined && codeOf(after) === 'no_particles';
      if (name === 'worstQuality') return after === 'bad' && JSON.stringify(inputsAfter).includes('"bad"');
      if (name === 'advanceAcceptance')
        return /^\.events\[0\]\.(text|quality|outcome)$/.test(path) && / or hardly any, /.test(toldWhy(difference));
      return path === '.quality' && after === 'bad' && gained(difference).includes('no_particles');
    },
  },
  {
    reason: '`count_missing` is found by a monitor at once where a target, an alarm or a followed figure needs a size',
    covers: (difference) => {
      const { name, path, before, after } = difference;
      if (name !== 'advanceMonitor') return false;
      if (/findings\[\+\]$/.test(path)) return before === undefined && codeOf(after) === 'count_missing';
      return /^\.verdict\.quality$/.test(path) && after === 'uncertain' && gained(difference).includes('count_missing');
    },
  },
  {
    reason: '`staleAfterMs` of a monitor counts for each of its alarms',
    covers: ({ name, path, inputs, before, after }) =>
      name === 'advanceMonitor' &&
      typeof Object(inputs[0]).staleAfterMs === 'number' &&
      /events\[\+\]$/.test(path) &&
      before === undefined &&
      /^signal_(stale|restored)$/.test(eventOf(after)),
  },
  {
    reason: '`volume_disagrees` finds a volume greater than all the oil that passed where no `countedShare` is set',
    covers: (difference) => {
      const { path, before, after } = difference;
      if (/findings\[\+\]$/.test(path)) {
        const { code, figure, limit } = Object(after) as { code: string; figure: number; limit: number };
        return before === undefined && code === 'volume_disagrees' && figure > 1.2 * limit;
      }
      const isQuality = /^(\.verdict)?\.quality$/.test(path);
      return isQuality && after === 'uncertain' && gained(difference).includes('volume_disagrees');
    },
  },
  {
    reason:
      'blocks of a day (0.1.0: 12 hours), `autocorrelatedTrend` and `advanceChange` instead of Mann-Kendall, Sen ' +
      'and a CUSUM',
    // the slope itself, its blocks and its times are equal
    covers: ({ name, path }) =>
      name === 'advanceMonitor' && /^\.verdict\.trends\[\]\.trend\.(low|high|p|direction)$/.test(plain(path)),
  },
  {
    reason: '`run.ms` is the time proved.',
    covers: ({ path, before, after }) => /\.run\.ms$/.test(path) && before === undefined && typeof after === 'number',
  },
  {
    reason: 'What cannot be judged for want of an earlier reading, such as `clock_backwards`, stands in `unchecked`.',
    covers: ({ path }) => /\.unchecked\[\]$/.test(plain(path)),
  },
  {
    reason: '`reading.time` is whole milliseconds (0.1.0: any number)',
    covers: ({ endAfter }) =>
      isThrown(endAfter) && endAfter.error === 'not_an_integer' && /^(reading|input)\.time$/.test(endAfter.parameter),
  },
  {
    reason: 'Charts have the width asked for, of the whole picture',
    covers: ({ name }) => /^(trend|size|cleanUp|probability)Chart$/.test(name),
  },
  {
    reason:
      '`periodFigures(readings, options)` gives the figures of a period, `periodSummary(figures, texts?)` the words',
    covers: ({ name }) => name === 'periodSummary',
  },
  {
    reason: '`utcOffsetMinutes` may be a function of the time.',
    covers: ({ name, inputs }) => name === 'reportRows' && typeof Object(inputs[1]).utcOffsetMinutes === 'function',
  },
  {
    reason: 'Null switches it off.',
    covers: ({ name, inputs, endBefore, endAfter }) =>
      /(Alarm|Monitor)$/.test(name) &&
      (inputs[0] as { staleAfterMs?: unknown } | null)?.staleAfterMs === null &&
      isThrown(endBefore) &&
      !isThrown(endAfter),
  },
  {
    reason: '`reason` of `refused` is a word',
    covers: ({ path, after }) => /^\.events\[\]\.reason$/.test(plain(path)) && /^[a-z_]+$/.test(String(after)),
  },
  {
    reason: 'of an alarm that stands alone `signal_bad`, `signal_good`',
    covers: ({ name, path, before, after }) =>
      name === 'advanceAlarm' && path === '.events[+]' && before === undefined && /^signal_/.test(eventOf(after)),
  },
  {
    reason: '`signal_stale` carries `since`',
    covers: ({ path, before }) => /^\.events\[\]\.since$/.test(plain(path)) && before === undefined,
  },
  {
    reason: 'A reading without counts is a reading',
    covers: (difference) => {
      const { endBefore, endAfter } = difference;
      if (isThrown(endBefore) && endBefore.parameter === 'reading.counts' && !isThrown(endAfter)) return true;
      const [then, now] = errorsOf(difference) ?? [];
      const lacking = then !== undefined && /^reading\.counts\b/.test(then.parameter);
      return lacking && /^reading\b/.test(now?.parameter ?? '');
    },
  },
  {
    reason: 'Counts are stuck by the chance of a repeat, `stuckChance` (0.1.0: `stuckReadings`)',
    // what is remembered of repeats
    covers: ({ name, path }) => /Acceptance$/.test(name) && /^(\.state)?\.same\b/.test(path),
  },
  {
    reason: '`raised` carries setpoint, priority, figure and code',
    covers: ({ name, path, before }) =>
      /^advance(Alarm|Monitor)$/.test(name) &&
      /^\.events\[\]\.(setpoint|priority|figure|code)$/.test(plain(path)) &&
      before === undefined,
  },
  {
    reason: '`raised`, `re_alarmed` and `returned` of an alarm on a change carry `type`, `withinMs` and `setpoint`',
    covers: ({ name, path, before }) =>
      /^advance(Alarm|Monitor)$/.test(name) &&
      /^\.events\[\]\.(type|withinMs)$/.test(plain(path)) &&
      before === undefined,
  },
  {
    reason: 'told as `target_stale`, and as `target_restored` when they do again',
    covers: ({ name, path, before, after }) =>
      name === 'advanceMonitor' &&
      /events\[\+\]$/.test(path) &&
      before === undefined &&
      /^target_(stale|restored)$/.test(eventOf(after)),
  },
  {
    reason: '(`CodeVerdict` gains `standard`)',
    covers: ({ path, before, name }) =>
      (/\.codes\[\]\.standard$/.test(plain(path)) && before === undefined) ||
      (name === 'reportReading' && /^\.codes\./.test(path)),
  },

  {
    reason: 'A member that an input does not have is refused with `unknown_option`',
    // `sizes` is the member that the walk adds where it does not belong
    covers: ({ endAfter }) =>
      isThrown(endAfter) && endAfter.error === 'unknown_option' && /\.sizes$/.test(endAfter.parameter),
  },
  {
    reason: '`reportReading`, `messageOf`, `findingText` and `alarmStatistics` refuse a misspelt member',
    // the walk hands in a row of a report, with a quality and a verdict, as a reading: both are named
    covers: ({ name, endAfter }) =>
      name === 'reportReading' &&
      isThrown(endAfter) &&
      endAfter.error === 'unknown_option' &&
      endAfter.parameter === 'reading',
  },
  {
    reason: "Errors name the caller's own path",
    covers: (difference) => {
      const [then, now] = errorsOf(difference) ?? [];
      if (then === undefined || now === undefined) return false;
      // an input of what lives on is held against one rule: the first mistake may be another, the input is the same
      if (/^advance(Monitor|Acceptance)$|^alarmStateName$/.test(difference.name)) {
        return /^(reading|input|state)\b/.test(then.parameter) && /^(reading|input|state)\b/.test(now.parameter);
      }
      if (then.error !== now.error) return false;
      const renamed: Readonly<Record<string, readonly [RegExp, string]>> = {
        cumulativeCounts: [/^at/, 'counts'],
        fromDifferential: [/^ranges/, 'counts.ranges'],
        meets: [/^counts/, 'actual'],
        classifyExact: [/^at/, 'counts.at'],
      };
      const [before, after] = renamed[difference.name] ?? [/^$/, ''];
      return then.parameter.replace(before, after) === now.parameter;
    },
  },
  {
    reason: '`options.columns[1]` for the second label',
    covers: (difference) => {
      const [then, now] = errorsOf(difference) ?? [];
      return then?.parameter === 'options.columns' && /^options\.columns\[\d+\]$/.test(now?.parameter ?? '');
    },
  },
  {
    reason: "say so: `independence: 'assumed'`, and `lag1`, how alike neighbours are",
    covers: ({ name, path, before }) =>
      ['mannKendall', 'senSlope'].includes(name) && /^\.(independence|lag1)$/.test(path) && before === undefined,
  },
  {
    reason: 'The texts of `no_flow`, `flow_low`, `flow_high`, `pressure_low` and `temperature_high`',
    covers: ({ path, before, after }) =>
      /(findings\[\d+\]\.text|\.why)$/.test(path) &&
      typeof after === 'string' &&
      /No oil flows|Flow is|Pressure in the sensor is|Oil is at/.test(String(before)),
  },
  {
    reason: '`above_coincidence_limit` says what helps on line: a sensor with a higher limit',
    covers: ({ path, before, after }) =>
      /(findings\[\d+\]\.text|\.why)$/.test(path) && before !== after && remedyAsNow(before) === after,
  },
  {
    reason: 'The text of `viscosity_high` says that the viscosity may be that of the temperature.',
    covers: ({ path, before, after }) =>
      /(findings\[\d+\]\.text|\.why)$/.test(path) && asNow(before) === after && before !== after,
  },
  {
    reason: 'counts alone do not tell air, droplets and coarse wear apart.',
    covers: ({ path, before, after }) =>
      /(findings\[\d+\]\.text|\.why)$/.test(path) &&
      / no solid contaminant known falls more slowly than /.test(String(before)) &&
      / fine dirt falls with /.test(String(after)),
  },
  {
    reason:
      'An alarm of type `rise` or `fall` on a scale number takes particles too few to show a change of its setpoint',
    covers: ({ name, path, inputs, before, after, endBefore, endAfter }) => {
      if (name !== 'advanceMonitor') return false;
      const alarms = (Object(inputs[0]).alarms ?? []) as { id: string; type: string; figure: object }[];
      const isWide = (one: (typeof alarms)[number] | undefined) =>
        /^(rise|fall)$/.test(`${one?.type}`) && 'continuousScaleNumberAt' in Object(one?.figure);
      const [, place] = /^\.(?:state|verdict)\.alarms\[(\d+)\]/.exec(path) ?? [];
      if (place !== undefined) return isWide(alarms[Number(place)]);
      const [, event] = /^\.events\[([\d+]+)\]/.exec(path) ?? [];
      const told = [endBefore, endAfter].map((end) => Object(end).events?.[Number(event)]);
      const isOf = (one: unknown) => isWide(alarms.find(({ id }) => id === Object(one).alarm));
      return event !== undefined && (event === '+' ? [before, after] : told).some(isOf);
    },
  },
  {
    reason: 'Of the sizes with too few particles, the one with the fewest is told last.',
    covers: ({ path, before, after }) =>
      /(findings\[\d+\]\.text|\.why)$/.test(path) &&
      / fewer than .* were counted/.test(String(before)) &&
      wordsOf(asNow(before)) === wordsOf(after),
  },
  {
    reason: 'A proof counts volume as it counts time, between neighbouring good readings',
    covers: ({ name, path, before, inputs }) =>
      /Acceptance$/.test(name) &&
      ((/\.run\.litres$/.test(path) && before === undefined) ||
        (Object(inputs[0]).leastLitres > 0 && /^\.(events|state)\b/.test(path))),
  },
  {
    reason: 'and where a figure is out of its range',
    covers: ({ name, endBefore, endAfter }) =>
      name === 'advanceFlowControl' &&
      !isThrown(endBefore) &&
      isThrown(endAfter) &&
      (endAfter as { error: string }).error === 'bad_state',
  },
  {
    reason: 'takes as much of its step as the output can follow',
    covers: ({ name, path, before, after }) =>
      name === 'advanceFlowControl' &&
      /^(\.state)?\.(percent|integral)$/.test(path) &&
      typeof before === 'number' &&
      typeof after === 'number',
  },
  {
    reason: '`stopped` and `started` (new) tell every stop and start',
    covers: ({ name, path, after }) =>
      name === 'advanceFlowControl' &&
      path === '.events[+]' &&
      /^(stopped|started)$/.test((after as { code?: string } | undefined)?.code ?? ''),
  },
  {
    reason: 'a viscosity of 0 or less as not known',
    covers: ({ name, endBefore, endAfter }) =>
      name === 'advanceFlowControl' &&
      isThrown(endBefore) &&
      !isThrown(endAfter) &&
      (endBefore as { parameter: string }).parameter === 'input.mm2PerS',
  },
  {
    reason: 'reads a flow down to a twentieth of the setpoint below 0, as a meter at rest shows it, as 0',
    covers: ({ name, endBefore, endAfter }) =>
      name === 'advanceFlowControl' &&
      isThrown(endBefore) &&
      !isThrown(endAfter) &&
      (endBefore as { error: string }).error === 'negative',
  },
  {
    reason: 'States of 0.1.0 go on through `resumeFlowControl`',
    covers: ({ name, path, before }) =>
      /FlowControl$/.test(name) &&
      /^(\.state)?\.(version|swing|off|still|atLimit|left|lostSteps|slewLeft)$/.test(path) &&
      before === undefined,
  },
  {
    reason: 'A lost sample holds the integral part: the loop goes on with the next sample.',
    // at the loss, and from there on, as the states that each library was handed have gone apart
    covers: ({ name, inputs, inputsAfter, endBefore, endAfter }) => {
      if (name !== 'advanceFlowControl' || isThrown(endBefore) || isThrown(endAfter)) return false;
      const [was, is] = [inputs[1] as FlowState, inputsAfter[1] as FlowState];
      const lost = was.lost || (inputs[2] as { mlPerMin: number | null }).mlPerMin === null;
      return lost || was.integral !== is.integral || was.percent !== is.percent;
    },
  },
  {
    reason: '`prepareFlowControl(config)` checks and completes a configuration',
    covers: ({ name, endBefore, endAfter }) =>
      name === 'advanceFlowControl' &&
      isThrown(endBefore) &&
      isThrown(endAfter) &&
      endAfter.error === 'bad_configuration',
  },
  {
    reason: '`startFlowControl(prepared, { percent })`',
    // null is a percent left out, as in other options
    covers: ({ name, inputs }) => name === 'startFlowControl' && inputs[0] === null,
  },
  {
    reason: 'A flow below 0, as a meter at rest shows it, is judged as 0',
    covers: ({ endBefore, endAfter }) =>
      isThrown(endBefore) &&
      !isThrown(endAfter) &&
      (endBefore as { parameter: string }).parameter === 'reading.mlPerMin' &&
      (endBefore as { error: string }).error === 'negative',
  },
  {
    reason: 'A stop by hand is taken whatever else is wrong with the step of `advanceFlowControl`',
    covers: ({ name, inputs, endBefore, endAfter }) =>
      name === 'advanceFlowControl' &&
      isThrown(endBefore) &&
      !isThrown(endAfter) &&
      (inputs[2] as { manualPercent: number }).manualPercent <= 0,
  },
  {
    reason: '`viscosity_outside` and `viscosity_inside` are told at the sixth step in turn (0.1.0: at each spike)',
    covers: ({ name, path, before, after }) =>
      name === 'advanceFlowControl' &&
      (/^\.state\.(outside|turning)$/.test(path) ||
        (path === '.events[+]' && /^viscosity_/.test(codeOf(before ?? after)))),
  },
  {
    // the print of a configuration in a state: the adapter names the limits that 0.1.0 had by itself
    reason: '`defaultReadingLimits.leastKPa` and `.mostMm2PerS` are `null` (0.1.0: a figure each)',
    covers: ({ name, path }) => /Acceptance$/.test(name) && /^(\.state)?\.print$/.test(path),
  },
  {
    reason: 'A reading worse than target ends the run whatever its time; in 0.1.0 one that came late did not.',
    covers: (difference) => {
      if (difference.name !== 'advanceAcceptance') return false;
      const { was, is, then, now, reading, rule } = proofs(difference);
      if (was === null || is === null || now === null || rule.leastMs !== undefined) return false;
      // late and worse, or a clock set back; and from there on, as the two proofs have gone apart, until both begin
      // anew
      const late = was.time !== null && reading.time <= was.time;
      const { events } = difference.endAfter as { events: readonly { why?: string }[] };
      const worse = events.some(({ why }) => why === 'worse than target');
      return (late && (worse || then?.time !== now.time)) || apart(difference);
    },
  },
  {
    reason: 'Time counts only between neighbouring readings that both count, over gaps that are not too long',
    // where time is wanting, and from there on
    covers: (difference) => {
      if (difference.name !== 'advanceAcceptance') return false;
      const { then, now, rule } = proofs(difference);
      if (!((rule.leastMs ?? 0) > 0)) return false;
      const run = now?.run;
      if (run && run.ms < run.to - run.from && then !== null) return true;
      return apart(difference);
    },
  },
  {
    reason: 'A proof is no longer made of zeros and stray particles',
    // and from there on, as the two proofs have gone apart
    covers: (difference) => {
      if (difference.name !== 'advanceAcceptance') return false;
      const events = Object(difference.endAfter).events as readonly { why?: string }[] | undefined;
      return events?.some(({ why }) => why === 'few_in_all') === true || apart(difference);
    },
  },
  {
    reason: '`classTable` names every mistake at once: where there are several, `parameter` is `own`',
    covers: (difference) => {
      const [then, now] = difference.name === 'classTable' ? (errorsOf(difference) ?? []) : [];
      return then !== undefined && now?.parameter === 'own' && difference.path === '.parameter';
    },
  },
  {
    reason:
      'A member of a table or of counts that is not of its type is told so before its words and lengths are looked at',
    covers: (difference) => {
      const [then, now] = errorsOf(difference) ?? [];
      if (then === undefined || now === undefined) return false;
      if (!/^(wrong_type|not_a_number|infinite)$/.test(now.error)) return false;
      if (then.error === 'length_mismatch' && /\.perMl$/.test(then.parameter))
        return /\.sizes\[0\]$/.test(now.parameter);
      const same = then.parameter === now.parameter.replace(/\[\d+\]$/, '');
      return difference.name === 'classTable' && same && /^(unknown_option|length_mismatch)$/.test(then.error);
    },
  },
  {
    reason: 'so the slope of a trend may differ in its last digits.',
    // by no more than a unit of the means from one block to the next, and the last digit told
    covers: ({ name, path, inputs, before, after, endAfter }) => {
      const [, place] = /^\.verdict\.trends\[(\d+)\]\.trend\.perDay$/.exec(path) ?? [];
      if (name !== 'advanceMonitor' || place === undefined) return false;
      const { blockMs } = (inputs[0] as { follow: { blockMs: number }[] }).follow[Number(place)] as { blockMs: number };
      const { state } = endAfter as { state: { followed: { change: string }[] } };
      const means = openChange(state.followed[Number(place)]?.change ?? '').ring;
      // seven digits of the largest
      const unit = 10 ** (Math.ceil(Math.log10(Math.max(...means.map((mean) => Math.abs(mean ?? 0))))) - 7);
      const most = (unit * 86400000) / blockMs + 1e-6 * Math.abs(before as number);
      return Math.abs((before as number) - (after as number)) <= most;
    },
  },
  {
    reason: '`beyondAsked` says where it is colder than any asked for.',
    covers: ({ name, path }) => name === 'suctionByTemperature' && path === '.beyondAsked',
  },
  {
    reason: 'and null where that one breaks the limit.',
    covers: ({ name, path, after, endAfter }) => {
      if (name !== 'suctionByTemperature' || path !== '.lowestCelsius' || after !== null) return false;
      const { rows } = endAfter as { rows: { celsius: number; allowed: boolean }[] };
      return !rows.reduce((one, other) => (other.celsius > one.celsius ? other : one)).allowed;
    },
  },
  {
    reason: 'A bucket says how long a reading stood at most (`holdMs`), and `mergeRollUps` refuses parts',
    covers: ({ name, path, before }) =>
      /^(rollUp|mergeRollUps)$/.test(name) && /^\[\d+\]\.holdMs$/.test(path) && before === undefined,
  },
  {
    reason: '`rollUp` and `mergeRollUps` take `edges` instead of a width: local days, calendar months.',
    // without either, the first member wanting is another
    covers: ({ name, path, before, after }) =>
      /^(rollUp|mergeRollUps)$/.test(name) &&
      path === '.parameter' &&
      before === 'options.widthMs' &&
      after === 'options.holdMs',
  },
];

interface FlowState {
  readonly lost: boolean;
  readonly integral: number;
  readonly percent: number;
}
