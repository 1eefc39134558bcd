/**
 * The memory of a proof: how it begins, the check of one that was restored, and the space it can take.
 */
import type { ClassTable } from '../codes/index.ts';
import { motescaleError } from '../errors.ts';
import { noRepeats } from '../reading/repeats.ts';
import { isRepeats, repeatsBytes } from '../reading/repeatsState.ts';
import { isCount, isFigure, isListOf, isObject, isTime, isTimeOrNull, isWholeUpTo } from '../state/members.ts';
import { idBytes } from '../state/names.ts';
import { textOf, textPrint } from '../state/textPrint.ts';
import type { AcceptanceConfig, AcceptanceRecord, AcceptanceRun, AcceptanceState } from './types.ts';

/** The most bytes the state of a proof takes as JSON. */
export const mostAcceptanceBytes = 6144;

/** The longest the state can be as JSON but for names and codes, and a margin but for the name of its column. */
const bytes = { state: 1060 + repeatsBytes, margin: 28 };

/** Nothing shown yet. */
export function freshAcceptance(config: AcceptanceConfig): AcceptanceState {
  return {
    version: 1,
    print: acceptancePrint(config),
    time: null,
    litres: null,
    repeats: noRepeats,
    run: null,
    notCounted: 0,
    restarts: 0,
    lastRestart: null,
    accepted: null,
  };
}

/** Throws `bad_state` unless the state is one that the library made, for this configuration. */
export function checkAcceptanceState(config: AcceptanceConfig, state: AcceptanceState): void {
  if (!isSound(state)) {
    const expected = 'a state of version 1, as startAcceptance or advanceAcceptance gave it';
    throw motescaleError('bad_state', 'state', state, expected);
  }
  if (state.print !== acceptancePrint(config)) {
    const expected = 'the state of this configuration: a proof rests on one table, target and rule; begin a new one';
    throw motescaleError('bad_state', 'state.print', state.print, expected);
  }
}

/** Everything that decides what is shown, and when. */
function acceptancePrint(config: AcceptanceConfig): number {
  const { table, target, columns, readings, leastMs = 0, leastLitres = 0, longestGapMs, limits = {} } = config;
  const { id, counting, perVolumeMl, columns: sizes, classes } = table;
  const judgedBy = [id, counting, perVolumeMl, sizes, classes.join(), table.limits.join()];
  return textPrint(textOf([judgedBy, target, columns, readings, leastMs, leastLitres, longestGapMs, limits]));
}

/** How many bytes the state takes at most, as JSON. */
export function acceptanceBytes({ table, target, columns }: AcceptanceConfig): number {
  const labels = columns ?? table.columns.map(({ label }) => label);
  // the code of the last restart stands in the state and in the record, that of the last reading in the record
  let sum = bytes.state + idBytes(table.id) + idBytes(target) + 3 * codeBytes(table);
  for (const label of labels) sum += bytes.margin + idBytes(label);
  return sum;
}

function codeBytes({ notation, columns, classes }: ClassTable): number {
  const longest = Math.max(...classes.map(idBytes));
  if (notation === undefined || notation === 'single') return longest + 1;
  const letters = notation === 'lettered';
  return columns.reduce((sum, { label }) => sum + longest + 3 + (letters ? idBytes(label) : 0), 2);
}

function isSound(state: AcceptanceState): boolean {
  return (
    isObject(state) &&
    state.version === 1 &&
    isCount(state.print) &&
    isTimeOrNull(state.time) &&
    isVolumeOrNull(state.litres) &&
    isRepeats(state.repeats) &&
    isCount(state.notCounted) &&
    isCount(state.restarts) &&
    isRestart(state.lastRestart) &&
    (state.run === null || isRun(state.run)) &&
    (state.accepted === null || (state.run === null && isRecord(state.accepted)))
  );
}

function isVolumeOrNull(litres: number | null): boolean {
  return litres === null || (isFigure(litres) && litres >= 0);
}

function isRun(run: AcceptanceRun): boolean {
  return (
    isObject(run) &&
    isCount(run.readings) &&
    isCount(run.fewParticles) &&
    run.fewParticles <= run.readings &&
    isTime(run.from) &&
    isTime(run.to) &&
    isVolumeOrNull(run.fromLitres) &&
    isVolumeOrNull(run.toLitres) &&
    isListOf(run.margins, 1000, (margin) => isText(margin?.column) && isWholeUpTo(margin.classes, 1e6)) &&
    isListOf(run.unchecked, 20, isText)
  );
}

function isRestart(restart: AcceptanceState['lastRestart']): boolean {
  if (restart === null) return true;
  return (
    isObject(restart) && isTime(restart.time) && isText(restart.why) && (restart.text === null || isText(restart.text))
  );
}

function isRecord(record: AcceptanceRecord): boolean {
  return (
    isObject(record) &&
    isText(record.table) &&
    isText(record.target) &&
    isText(record.text) &&
    isRun(record.run) &&
    isObject(record.required) &&
    isCount(record.required.readings) &&
    isCount(record.required.ms) &&
    isFigure(record.required.litres) &&
    isCount(record.notCounted) &&
    isCount(record.restarts) &&
    isRestart(record.lastRestart)
  );
}

function isText(value: unknown): value is string {
  return typeof value === 'string' && value !== '';
}
