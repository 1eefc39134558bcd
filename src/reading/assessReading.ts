/**
 * Whether a reading can be trusted: each check by itself, the worst of them decides.
 */

import { motescaleError } from '../errors.ts';
import { type Check, checkEarlier, checkReading, mergeLimits, requireQuality } from './assess/check.ts';
import { airOrDroplets } from './assess/distribution.ts';
import { clockBackwards } from './assess/history.ts';
import { flow, noFlow, pressure, temperature, unflushed, viscosity } from './assess/instrument.ts';
import { coincidence, countsRise, fewParticles } from './assess/particles.ts';
import { type Repeats, repeatsAfter, valuesStuck } from './assess/stuck.ts';
import { cooled, freeWater } from './assess/water.ts';
import type { Assessment, Finding, FindingCode, Quality, Reading } from './reading.ts';
import type { OwnReadingLimits } from './readingLimits.ts';

const checks: readonly Check[] = [
  noFlow,
  flow,
  pressure,
  viscosity,
  temperature,
  unflushed,
  fewParticles,
  countsRise,
  coincidence,
  freeWater,
  cooled,
  airOrDroplets,
  valuesStuck,
  clockBackwards,
];

/**
 * How far the counts of a reading can be relied on: `good`, `uncertain` or `bad`, with every finding that says otherwise and every check
 * that could not be made.
 *
 * `bad` stands where the counts say nothing about the oil in the system (no flow, line not flushed, values stuck, counts rising with size);
 * all else is `uncertain`, so that a dirty, aerated or wet oil can still raise an alarm.
 *
 * A good reading says that the sample was right, not that a machine may run: that decision stays with those responsible for the machine.
 * Before anyone touches the line: stop the pump, lock it out, let the pressure off, accumulators too. Oil under pressure injures.
 *
 * @param reading the reading; a figure it lacks leaves its check undone, and `unchecked` says so
 * @param limits limits of one's own; what is left out is as in `defaultReadingLimits`
 * @param earlier the readings before it, oldest first: for counts that are stuck and a clock that runs backwards
 * @throws errors of type and range for figures no instrument can mean, such as a negative flow; never for counts that rise with size,
 * which are a finding here.
 *
 * @example
 * ```ts
 * import { assessReading } from 'motescale/reading';
 * const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33], counted: [18900, 4020, 330], volumeMl: 10 } as const;
 * const { quality, unchecked } = assessReading({ counts, mm2PerS: 46 });
 * quality; // => 'good'
 * // no limit of viscosity is set: it is not checked
 * unchecked.indexOf('viscosity_high') >= 0; // => true
 * const thick = assessReading({ counts, mm2PerS: 420 }, { mostMm2PerS: 400 });
 * thick.quality; // => 'uncertain'
 * thick.findings.map((finding) => finding.code); // => ['viscosity_high']
 * ```
 */
export function assessReading(
  reading: Reading,
  limits: OwnReadingLimits = {},
  earlier: readonly Reading[] = [],
): Assessment {
  return assessBeside(reading, limits, checkEarlier(earlier));
}

/** The same for callers who know the repeats and have not kept the readings. */
export function assessBeside(
  reading: Reading,
  limits: OwnReadingLimits,
  earlier: readonly Reading[],
  known?: Repeats,
): Assessment {
  checkReading(reading);
  const repeats = known ?? repeatsAfter(earlier, reading);
  const context = { reading, limits: mergeLimits(limits), earlier, repeats };
  const findings: Finding[] = [];
  const unchecked: FindingCode[] = [];
  for (const check of checks) {
    const found = check.find(context);
    if (found === null) {
      for (const code of check.codes) unchecked.push(code);
      continue;
    }
    for (const { code, figure, limit, text } of found) {
      findings.push({ code, quality: context.limits.qualities[code], figure, limit, text });
    }
  }
  return { quality: worstQuality(findings.map((finding) => finding.quality)), findings, unchecked };
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
  if (!Array.isArray(qualities)) throw motescaleError('wrong_type', 'qualities', qualities, 'an array of qualities');
  for (let i = 0; i < qualities.length; i += 1) requireQuality(qualities[i], `qualities[${i}]`);
  if (qualities.indexOf('bad') >= 0) return 'bad';
  return qualities.indexOf('uncertain') >= 0 ? 'uncertain' : 'good';
}
