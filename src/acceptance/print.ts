/** The fingerprint of a proof: a state belongs to one. Version 0.1.0 made the same of it, so that its states go on. */
import type { CodePlan } from '../judging/codePlan.ts';
import type { OwnReadingLimits } from '../reading/readingLimits.ts';
import { textOf, textPrint } from '../state/textPrint.ts';
import { flat, flat1 } from './earlier.ts';
import type { AcceptanceConfig, PreparedAcceptance } from './types.ts';

/** Everything but the limits that decides what is shown, and when: texts before and behind them. */
export function ruleOf({ table }: CodePlan, config: AcceptanceConfig): readonly [before: string, behind: string] {
  const { target, columns, readings, leastMs = 0, leastLitres = 0, mostLitresPerMin, maxGapMs } = config;
  const { id, counting, perVolumeMl, columns: sizes, classes } = table;
  const judgedBy = [id, counting, perVolumeMl, sizes, classes.join(), table.limits.join()];
  const before = textOf([judgedBy, target, columns, readings, leastMs, leastLitres, maxGapMs]).slice(0, -1);
  return [`${before},`, mostLitresPerMin === undefined ? ']' : `,${textOf(mostLitresPerMin)}]`];
}

export function printOf([before, behind]: readonly [string, string], limits: object): number {
  return textPrint(before + textOf(limits) + behind);
}

/** So many equal counts in a row it may have been told to take for stuck; how many, decides nothing now. */
const mostStuck = 20;

/**
 * Whether 0.1.0 had this print of the same proof. Its limits may have had other names, `stuckReadings` and
 * `air_or_droplets_likely`, and `null` for what now may be left out.
 */
export function isPrint1({ asked: { rule, limits } }: PreparedAcceptance, print: number): boolean {
  const { stuckChance, qualities, ...rest } = limits;
  const stuck: (number | null | undefined)[] = stuckChance === null ? [undefined, null] : [undefined];
  for (let n = 2; n <= mostStuck; n += 1) stuck.push(n);
  const { leastKPa = null, mostMm2PerS = null } = limits;
  const given = { ...rest, qualities: qualities1(qualities) };
  const ways = [given, { ...given, leastKPa }, { ...given, mostMm2PerS }, { ...given, leastKPa, mostMm2PerS }];
  return ways.some((own) => stuck.some((stuckReadings) => printOf(rule, { ...own, stuckReadings }) === print));
}

function qualities1(qualities: OwnReadingLimits['qualities']): object | undefined {
  if (qualities === undefined) return undefined;
  const { [flat]: own, ...others } = qualities;
  return { ...others, [flat1]: own };
}
