/** Whether a reading can be trusted: each check by itself, and each figure by the findings that touch it. */
import { requireArray, requireOneOf } from '../checks.ts';
import { qualityWords } from '../rules/bounds.ts';
import { usualAfter } from '../state/usual.ts';
import type { Writable } from '../state/writable.ts';
import type { HasTable, Needed } from './assess/check.ts';
import { bandedCodes } from './assess/codeBands.ts';
import { asRemembered } from './atRest.ts';
import { findAll } from './findAll.ts';
import { touchedBy } from './findingKinds.ts';
import { checkReading } from './gate.ts';
import { wholeLimits } from './ownLimits.ts';
import type { Assessment, FigureName, Finding, FindingCode, Quality, Reading } from './reading.ts';
import type { OwnReadingLimits, ReadingLimits } from './readingLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from './remembered/repeats.ts';
import { figureNames } from './rules.ts';

/**
 * How far each figure of a reading can be relied on: `good`, `uncertain` or `bad`, with every finding that says
 * otherwise and every check that could not be made. Trust belongs to a figure: a counter without flow does not silence
 * a thermometer. `quality` is that of the counts, or of the code where there are no counts.
 *
 * `bad` stands where a figure says nothing about the oil in the system (no flow, line not flushed, values stuck, counts
 * rising with size, 850 °C); all else is `uncertain`, so that a dirty, aerated or wet oil can still raise an alarm.
 *
 * A good reading says that the sample was right, not that a machine may run: that decision stays with those responsible
 * for the machine. Before anyone touches the line: stop the pump, lock it out, release all pressure, including
 * accumulators. Oil under pressure injures.
 *
 * @param reading the reading; a figure it lacks leaves its check undone, and `unchecked` says so
 * @param limits limits of one's own; what is left out is as in `defaultReadingLimits`
 * @param earlier the readings before it, oldest first: for counts that are stuck and a clock that runs backwards
 * @throws errors of type and range for figures no instrument can mean, such as a negative flow; never for counts that
 * rise with size, which are a finding here.
 *
 * @example
 * ```ts
 * import { assessReading } from 'motescale/reading';
 * import { cumulativeCounts } from 'motescale/counts';
 * const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
 * const { quality, unchecked } = assessReading({ counts, mm2PerS: 46 });
 * quality; // => 'good'
 * // no limit of viscosity is set: it is not checked
 * unchecked.indexOf('viscosity_high') >= 0; // => true
 * const still = assessReading({ counts, mlPerMin: 0, celsius: 95 });
 * still.findings.map((finding) => finding.code); // => ['no_flow']
 * still.figureQualities; // => { counts: 'bad', mlPerMin: 'good', celsius: 'good' }
 * ```
 */
export function assessReading(
  reading: Reading,
  limits: OwnReadingLimits = {},
  earlier: readonly Reading[] = [],
): Assessment {
  const whole = wholeLimits(limits);
  requireArray(earlier, 'earlier', 'an array of readings');
  let repeats = noRepeats;
  let usual: number | null = null;
  for (let i = 0; i < earlier.length; i += 1) {
    const one = checkReading(earlier[i], `earlier[${i}]`);
    repeats = advanceRepeats(repeats, asRemembered(one, whole, repeats), usual);
    const { time, before } = repeats;
    if (time !== null && before !== null) usual = usualAfter(usual, time - before);
  }
  checkReading(reading);
  return assess(whole, reading, advanceRepeats(repeats, asRemembered(reading, whole, repeats), usual));
}

/**
 * The same for what has passed the gate; `repeats` has taken the reading in, null where it came out of order. Codes in
 * `tables` are compared with the counts; `needed`: the sizes someone waits for.
 */
export function assess(
  limits: ReadingLimits,
  reading: Reading,
  repeats: Repeats | null,
  tables: readonly HasTable[] = [],
  needed: readonly Needed[] = [],
): Assessment {
  const findings: Finding[] = [];
  const unchecked: FindingCode[] = [];
  const figureQualities = allGood(reading);
  const banded = bandedCodes(reading, tables);
  for (const found of findAll({ limits, reading, repeats, tables, needed, banded }, unchecked)) {
    const { code, value, limit, sizes, sizing, received, most } = found;
    const quality = found.quality ?? limits.qualities[code];
    const affects = found.affects ?? touchedBy(code);
    const finding: Writable<Finding> = { code, quality, affects, value, limit };
    if (sizes !== undefined) finding.sizes = sizes;
    if (sizing !== undefined) finding.sizing = sizing;
    if (received !== undefined) finding.received = received;
    if (most !== undefined) finding.most = most;
    findings.push(finding);
    for (const name of affects) {
      const before = figureQualities[name];
      if (before !== undefined) figureQualities[name] = worse(before, quality);
      // not even sent
      else if (code === 'flagged_by_instrument' && quality === 'bad') figureQualities[name] = quality;
    }
  }
  return { quality: figureQualities.counts ?? worstOf(figureQualities), figureQualities, findings, unchecked };
}

/** Of each figure a reading has, in the order of `figureNames`. */
function allGood(reading: Reading): Partial<Record<FigureName, Quality>> {
  const qualities: Partial<Record<FigureName, Quality>> = {};
  if (reading.counts !== undefined || reading.codes !== undefined) qualities.counts = 'good';
  if (reading.mlPerMin !== undefined) qualities.mlPerMin = 'good';
  if (reading.kPa !== undefined) qualities.kPa = 'good';
  if (reading.celsius !== undefined) qualities.celsius = 'good';
  if (reading.mm2PerS !== undefined) qualities.mm2PerS = 'good';
  if (reading.waterSaturation !== undefined) qualities.waterSaturation = 'good';
  return qualities;
}

export function worse(a: Quality, b: Quality): Quality {
  return qualityWords.indexOf(a) > qualityWords.indexOf(b) ? a : b;
}

function worstOf(qualities: Readonly<Partial<Record<FigureName, Quality>>>): Quality {
  let worst: Quality = 'good';
  for (const name of figureNames) worst = worse(worst, qualities[name] ?? 'good');
  return worst;
}

/**
 * The worst of several qualities; `good` of none.
 *
 * @example
 * ```ts
 * import { worstQuality } from 'motescale/reading';
 * worstQuality(['good', 'bad', 'uncertain']); // => 'bad'
 * ```
 */
export function worstQuality(qualities: readonly Quality[]): Quality {
  requireArray(qualities, 'qualities', 'an array of qualities');
  let worst: Quality = 'good';
  for (let i = 0; i < qualities.length; i += 1)
    worst = worse(worst, requireOneOf(qualities[i], `qualities[${i}]`, qualityWords));
  return worst;
}
