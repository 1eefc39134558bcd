/** From a monitor to a report: a reading with the verdict on it, ready for a row, a chart or a period in words. */
import { hasOwn, requireArray, requireObject, requireOneOf, requireText } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { monitorReadingRule } from '../monitor/gate.ts';
import type { CodeVerdict, ReadingInput, Verdict } from '../monitor/index.ts';
import { gateReading } from '../reading/gate.ts';
import type { TimedReading } from '../reading/index.ts';
import { figureNames } from '../reading/rules.ts';
import { qualityWords } from '../rules/bounds.ts';
import { requireLike } from '../rules/like.ts';
import { requireRule } from '../rules/require.ts';
import { apart, figureQualitiesRule, type ReportReading } from './reportReading.ts';
import { englishTexts } from './texts/english.ts';
import type { Texts } from './texts/types.ts';

const verdictMembers: Readonly<Record<keyof Verdict, true>> = {
  time: true,
  arrival: true,
  quality: true,
  figureQualities: true,
  findings: true,
  unchecked: true,
  codes: true,
  inTarget: true,
  alarms: true,
  trends: true,
};
const codeMembers: Readonly<Record<keyof CodeVerdict, true>> = {
  table: true,
  standard: true,
  text: true,
  code: true,
  from: true,
  classification: true,
  reason: true,
  target: true,
  outcome: true,
  probability: true,
};

/**
 * A reading and the verdict of a monitor on it as a reading of a report, with all that the instruments gave. Its codes
 * go by the name of their standard, those of a table that names none by its id; a table that gave no code is left out.
 * Every verdict has its reading: one with neither counts nor code has `codes: {}`. Where `advanceMonitor` gives none
 * (`verdict: null`, of a tick or a command, or a reading that was refused), there is nothing to report.
 *
 * A reading that came twice or was set aside keeps that `arrival`: a row of a table, and no part of a period or chart.
 * If a `clock_set` tells later that its time was right, leave that member out.
 *
 * The verdict in words: `in target`, `above target`, `target not judged` where a size of it is not known or rests on
 * too few particles, `not to be relied on` for a bad reading; none where the monitor has no target and the reading is
 * not bad. It tells of the sample; whether a machine may run is decided by those who answer for it.
 *
 * @param texts the words of another language; English where left out
 * @throws `wrong_type` for what is no reading or no verdict; `unknown_option` for a misspelt member; `out_of_range` for
 *   a verdict on a reading of another time.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * import { advanceMonitor, prepareMonitor, startMonitor } from 'motescale/monitor';
 * import { reportReading } from 'motescale/report';
 * const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }] });
 * const counts = cumulativeCounts({ 4: 18900, 6: 7020, 14: 330 }, { volumeMl: 10 });
 * const reading = { time: 1795593600000, counts, kPa: 32 };
 * const { verdict } = advanceMonitor(prepared, startMonitor(prepared), reading);
 * const reported = verdict && reportReading(reading, verdict);
 * reported?.codes; // => { 'ISO 4406': '18/17/12' }
 * reported?.verdict; // => 'above target'
 * ```
 */
export function reportReading(reading: TimedReading, verdict: Verdict, texts?: Texts): ReportReading {
  // counts that rise with size are a finding, and pass
  const { kind: _kind, ...given } = gateReading(reading, 'reading', monitorReadingRule) as ReadingInput;
  requireObject(verdict, 'verdict', 'the verdict of advanceMonitor on the reading', Object.keys(verdictMembers));
  const { time, quality, figureQualities, codes, arrival } = verdict;
  if (time !== reading.time) {
    throw motescaleError('out_of_range', 'verdict.time', time, `${reading.time}, the time of the reading`);
  }
  requireOneOf(quality, 'verdict.quality', qualityWords);
  requireRule({ ...figureQualitiesRule, optional: true }, figureQualities, 'verdict.figureQualities');
  requireArray(codes, 'verdict.codes', 'an array of codes');
  // its own words alone: a year has a hundred thousand readings
  const words = texts ?? englishTexts;
  requireLike(words, { verdicts: englishTexts.verdicts }, 'texts', true);
  const text = textOf(verdict, words);
  const named = codesByName(codes);
  const doubted = figureNames.some((name) => name !== 'counts' && (figureQualities?.[name] ?? 'good') !== 'good');
  return {
    ...given,
    codes: named,
    quality,
    ...(doubted ? { figureQualities } : {}),
    ...(text === undefined ? {} : { verdict: text }),
    ...(apart.indexOf(arrival as 'repeated') < 0 ? {} : { arrival: arrival as 'repeated' }),
  };
}

/** The codes there are. Two of one name, which tables of one's own can bring about, go by their ids after the first. */
function codesByName(codes: readonly CodeVerdict[]): Record<string, string> {
  const named: Record<string, string> = {};
  codes.forEach((code, i) => {
    requireObject(code, `verdict.codes[${i}]`, 'a code { table, text }', Object.keys(codeMembers));
    const { table, standard = table, text } = code;
    if (text === null) return;
    requireText(table, `verdict.codes[${i}].table`);
    requireText(standard, `verdict.codes[${i}].standard`);
    const name = hasOwn(named, standard) ? table : standard;
    named[name] = requireText(text, `verdict.codes[${i}].text`);
  });
  return named;
}

function textOf({ quality, inTarget, codes }: Verdict, { verdicts }: Texts): string | undefined {
  if (quality === 'bad') return verdicts.not_relied_on;
  if (inTarget !== null) return inTarget ? verdicts.in_target : verdicts.above_target;
  return codes.some(({ target }) => target !== undefined) ? verdicts.not_judged : undefined;
}
