/** The proof prepared and started. */
import { isObject, requireMembers, requireObject } from '../checks.ts';
import type { ClassTable } from '../codes/index.ts';
import { anyTableRule } from '../codes/ownTable/tableRule.ts';
import { noteProblem, type Problem, throwProblems } from '../errors.ts';
import type { CodePlan } from '../judging/codePlan.ts';
import { hasMistake, type KnownTables, notingTables, planCode, tablesOf, withoutTables } from '../judging/codePlans.ts';
import { findingCodes } from '../reading/findingKinds.ts';
import { limitsRule } from '../reading/limitsRule.ts';
import { filledLimits, noteLimits } from '../reading/ownLimits.ts';
import { repeatsBytes } from '../reading/remembered/repeatsState.ts';
import { idsWith } from '../reading/tableIds.ts';
import { checkRule } from '../rules/check.ts';
import { idBytes } from '../state/names.ts';
import { markOf, requirePrepared } from '../state/prepared.ts';
import { hour } from '../state/timeSteps.ts';
import { askedOf, printOf } from './print.ts';
import { noteRising } from './rising.ts';
import { acceptanceRule, seenChars } from './rules.ts';
import type { AcceptanceConfig, AcceptanceState, PreparedAcceptance } from './types.ts';
import { leastVolumes } from './volumes.ts';

/** The version of the state that this library writes. */
export const acceptanceStateVersion = 2;

/** The most bytes the state of a proof takes as JSON. */
export const mostAcceptanceBytes = 6144;

/**
 * Checks what has to be shown, reads the target, fills in what is left out, and returns it for `startAcceptance`,
 * `advanceAcceptance` and `resumeAcceptance`. Whether what it asks for is enough for the machine, it does not judge:
 * how often worse oil passes, above all oil that wavers slowly, `advanceAcceptance` says.
 *
 * **The tap of a flush lies in the return, before the flushing filter** (common practice; ISO 23309, from memory).
 * Behind it a count is smaller by the filtration ratio (ISO 16889), and dirty pipes are accepted: with ratios of 20, 75
 * and 1000 at 4, 6 and 14 µm(c), 21/19/15 in the pipe reads 16/12/5.
 *
 * Readings of fewer than 20 particles in all prove nothing: a dead counter gives a stray one too. Where the oil is so
 * clean that no larger volume helps, `limits: { qualities: { no_particles: 'good' } }` switches that off, as does
 * `stuckChance: null`; first try the counter with a sample known to hold particles.
 *
 * @param options `tables`: where a table named by its id is found, beside those of the configuration
 * @throws `bad_configuration`; `problemsOf` gives every mistake.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { prepareAcceptance } from 'motescale/acceptance';
 * const config = { table: 'iso4406', target: '16/14/11', readings: 7, leastMs: 10800000 };
 * const prepared = prepareAcceptance(config, { tables: [iso4406] });
 * prepared.of; // => 'iso4406 16/14/11: 7 readings, 10800000 ms, 0 L'
 * prepared.gap; // => { mostMs: 3600000, ends: false }
 * ```
 */
export function prepareAcceptance(
  config: AcceptanceConfig,
  options: { readonly tables?: readonly ClassTable[] | undefined } = {},
): PreparedAcceptance {
  requireMembers(requireObject(options, 'options', 'options { tables }'), 'options', ['tables']);
  const given = tablesOf(options.tables ?? []);
  const problems: Problem[] = [];
  const code = noteAcceptance(config, { tables: given, open: false }, problems);
  throwProblems('bad_configuration', 'config', config, problems);
  const { readings, leastMs = 0, leastLitres = 0, mostLitresPerMin = null, maxGapMs, target, limits = {} } = config;
  const plan = code as CodePlan & { readonly target: string };
  const filled = filledLimits(limits);
  const asked = askedOf(plan, config);
  const spread = Math.floor((2 * leastMs) / (readings - 1));
  return {
    ...markOf('acceptance'),
    of: `${plan.table.id} ${target}: ${readings} readings, ${leastMs} ms, ${leastLitres} L`,
    print: printOf(asked),
    asked,
    code: plan,
    tableIds: idsWith(given.concat(config.tables ?? [], [plan.table])),
    readings,
    leastMs,
    leastLitres,
    mostLitresPerMin,
    gap: maxGapMs === undefined ? { mostMs: Math.max(hour, spread), ends: false } : { mostMs: maxGapMs, ends: true },
    volumes: leastVolumes(plan, filled),
    limits: filled,
  };
}

/**
 * Notes every mistake in what has to be shown; `problems` may hold those of its tables already. Returns the code to be
 * met, whole where no mistake is noted.
 */
export function noteAcceptance(config: unknown, known: KnownTables, problems: Problem[]): CodePlan | null {
  checkRule(acceptanceRule(anyTableRule, limitsRule()), withoutTables(config), [], problems);
  if (!isObject(config)) return null;
  const { tables: own, limits } = config;
  const tables = known.tables.concat(notingTables(own, problems));
  const code = planCode(config as unknown as AcceptanceConfig, { ...known, tables }, [], [], problems);
  if (limits !== undefined && !hasMistake(problems, ['limits'])) noteLimits(limits, ['limits'], problems);
  if (code !== null && code.wanted !== null) {
    const { target } = code;
    const expected = 'a code without >=, which tells how few were counted, not what is asked for';
    if ((target as string).indexOf('>=') >= 0) noteProblem(problems, ['target'], 'bad_code', target, expected);
    noteRising(code, problems);
    noteRoom(code, problems);
  }
  return code;
}

/** A table of very many columns, or of long names, would not fit. */
function noteRoom(code: CodePlan, problems: Problem[]): void {
  const needed = acceptanceBytes(code);
  if (needed <= mostAcceptanceBytes) return;
  const room = `a state of ${mostAcceptanceBytes} bytes`;
  const expected = `columns whose names and codes fit ${room} (judge fewer by \`columns\`)`;
  noteProblem(problems, ['table'], 'out_of_range', needed, expected);
}

/**
 * The longest the state can be as JSON but for names, codes and counts, a margin but for the name of its column, and
 * what a record has besides, but for names and the worst code.
 */
const bytes = { state: 1270, margin: 28, record: 80 };

/** How many bytes the state takes at most, as JSON. Once accepted, the counts seen are let go: the record has more. */
export function acceptanceBytes({ table, target, columns }: CodePlan): number {
  const { title, source } = table;
  const labels = columns ?? table.columns.map(({ label }) => label);
  // the code of the last restart stands in the state and in the record, that of the last reading in the record
  let sum =
    bytes.state +
    JSON.stringify(findingCodes).length +
    2 * (idBytes(table.id) + idBytes(target as string)) +
    3 * codeBytes(table);
  for (const label of labels) sum += bytes.margin + idBytes(label);
  let ofRecord = bytes.record + idBytes(title) + idBytes(source?.edition ?? '') + codeBytes(table);
  // one that the target says nothing of has no margin: its name stands once
  for (const { label } of table.columns) if (labels.indexOf(label) < 0) ofRecord += idBytes(label) + 3;
  return sum + Math.max(repeatsBytes + seenChars, ofRecord);
}

function codeBytes({ notation, columns, classes }: ClassTable): number {
  const longest = Math.max(...classes.map(idBytes));
  if (notation === undefined || notation === 'single') return longest + 1;
  const letters = notation === 'lettered';
  return columns.reduce((sum, { label }) => sum + longest + 3 + (letters ? idBytes(label) : 0), 2);
}

/**
 * The state of a proof that has not begun.
 *
 * @throws `not_prepared`
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { prepareAcceptance, startAcceptance } from 'motescale/acceptance';
 * startAcceptance(prepareAcceptance({ table: iso4406, target: '16/14/11', readings: 7 })).restarts; // => 0
 * ```
 */
export function startAcceptance(prepared: PreparedAcceptance): AcceptanceState {
  requirePrepared(prepared, 'acceptance', 'prepareAcceptance');
  const { of, print } = prepared;
  return { version: acceptanceStateVersion, of, print, readings: 0, notCounted: 0, restarts: 0 };
}
