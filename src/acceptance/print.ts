/** The fingerprint of a proof: a state belongs to one. Version 0.1.0 made the same of it, so that its states go on. */
import type { CodePlan } from '../judging/codePlan.ts';
import type { OwnReadingLimits } from '../reading/readingLimits.ts';
import { textOf, textPrint } from '../state/textPrint.ts';
import { flat, flat1 } from './earlier.ts';
import type { AcceptanceConfig, PreparedAcceptance } from './types.ts';

/** Everything that decides what is shown, and when: what stands before the limits, these as given, and the rest. */
export type Asked = readonly [before: string, limits: string, behind: string];

export function askedOf({ table }: CodePlan, config: AcceptanceConfig): Asked {
  const { target, columns, readings, leastMs = 0, leastLitres = 0, mostLitresPerMin, maxGapMs, limits = {} } = config;
  const { id, counting, perVolumeMl, columns: sizes, classes } = table;
  const judgedBy = [id, counting, perVolumeMl, sizes, classes.join(), table.limits.join()];
  const before = textOf([judgedBy, target, columns, readings, leastMs, leastLitres, maxGapMs]).slice(0, -1);
  return [`${before},`, textOf(limits), mostLitresPerMin === undefined ? ']' : `,${textOf(mostLitresPerMin)}]`];
}

export function printOf(asked: Asked): number {
  return textPrint(asked.join(''));
}

/** So many equal counts in a row may have been stuck for it (our choice); how many, decides nothing now. */
const mostStuck = 100;

/**
 * Whether 0.1.0 had this print of the same proof. Its limits may have had other names, `stuckReadings` and
 * `air_or_droplets_likely`, and `null` for what now may be left out.
 */
export function isPrint1({ asked: [before, text, behind] }: PreparedAcceptance, print: number): boolean {
  const limits: OwnReadingLimits = JSON.parse(text);
  const { stuckChance, qualities, ...rest } = limits;
  const stuck: (number | null | undefined)[] = stuckChance === null ? [undefined, null] : [undefined];
  for (let n = 2; n <= mostStuck; n += 1) stuck.push(n);
  const { leastKPa = null, mostMm2PerS = null } = limits;
  const given = { ...rest, qualities: qualities1(qualities) };
  const ways = [given, { ...given, leastKPa }, { ...given, mostMm2PerS }, { ...given, leastKPa, mostMm2PerS }];
  return ways.some((own) =>
    stuck.some((stuckReadings) => printOf([before, textOf({ ...own, stuckReadings }), behind]) === print),
  );
}

function qualities1(qualities: OwnReadingLimits['qualities']): object | undefined {
  if (qualities === undefined) return undefined;
  const { [flat]: own, ...others } = qualities;
  return { ...others, [flat1]: own };
}
