/** The fingerprint of a proof: a state belongs to one. The same as version 0.1.0 made of it, so that its states go on. */
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

/** What 0.1.0 took where nothing was said. */
const usual1 = { leastKPa: 690, mostMm2PerS: 350 };
/** So many equal counts in a row it may have been told to take for stuck; how many, decides nothing now. */
const mostStuck = 20;

/**
 * Whether 0.1.0 had this print of the same proof. Its limits may have been the same by other names, and no milder:
 * `stuckReadings`, `air_or_droplets_likely`, and a pressure and a viscosity that it had by itself.
 */
export function isPrint1({ asked: { rule, limits } }: PreparedAcceptance, print: number): boolean {
  const { stuckChance, leastKPa, mostMm2PerS, qualities, ...rest } = limits;
  const stuck: (number | null | undefined)[] = stuckChance === null ? [undefined, null] : [undefined];
  for (let n = 2; n <= mostStuck; n += 1) stuck.push(n);
  const pressures = limits1(leastKPa, usual1.leastKPa, (leastKPa ?? -Infinity) <= usual1.leastKPa);
  const viscosities = limits1(mostMm2PerS, usual1.mostMm2PerS, (mostMm2PerS ?? Infinity) >= usual1.mostMm2PerS);
  const words = { ...rest, qualities: qualities1(qualities) };
  return stuck.some((stuckReadings) =>
    pressures.some((kPa) =>
      viscosities.some((mm2PerS) => {
        const own = { ...words, stuckReadings, leastKPa: kPa, mostMm2PerS: mm2PerS };
        return printOf(rule, own) === print;
      }),
    ),
  );
}

/** What such a limit may have been: the same, null where there is none, and its own where that was no milder. */
function limits1(limit: number | null | undefined, usual: number, isStrict: boolean): (number | null | undefined)[] {
  return [limit ?? null, ...(isStrict ? [undefined, usual] : [])];
}

function qualities1(qualities: OwnReadingLimits['qualities']): object | undefined {
  if (qualities === undefined) return undefined;
  const { [flat]: own, ...others } = qualities;
  return { ...others, [flat1]: own };
}
