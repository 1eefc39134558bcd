/**
 * When a figure turns bad and when it can be relied on again: told once for each figure, whatever alarms stand on it.
 * One that comes and goes can be kept back by a count of readings, which knows no clock.
 */
import { hasOwn } from '../checks.ts';
import type { Assessment, FigureName, TimedReading } from '../reading/reading.ts';
import { figureNames } from '../reading/rules.ts';
import type { Draft } from './passing.ts';
import type { MonitorEvent, PreparedMonitor } from './types.ts';

/** Notes and tells which figures a reading in order turns bad or restores; one that it lacks stays as it was. */
export function noteQualities(
  prepared: PreparedMonitor,
  next: Draft,
  reading: TimedReading,
  assessment: Assessment,
  time: number,
  events: MonitorEvent[],
): void {
  const { figureQualities } = assessment;
  for (let i = 0; i < figureNames.length; i += 1) {
    const figure = figureNames[i] as FigureName;
    const quality = figureQualities[figure];
    if (quality === undefined || (quality !== 'bad' && next.bad === undefined)) continue;
    note(prepared, next, figure, quality === 'bad', assessment, time, events);
  }
  if (reading.others === undefined) return;
  const seen: string[] = [];
  for (const { figure } of (prepared.alarms as readonly { figure: object }[]).concat(prepared.follow)) {
    if (!('other' in figure)) continue;
    const name = figure.other as string;
    const other = hasOwn(reading.others, name) ? reading.others[name] : undefined;
    // several may look at one figure: a reading counts once
    if (other === undefined || seen.indexOf(name) >= 0) continue;
    seen.push(name);
    const isBad = typeof other === 'object' && other.quality === 'bad';
    note(prepared, next, `other ${name}`, isBad, assessment, time, events);
  }
}

/** One figure: told where it turns bad, and where it has not been bad in so many readings since. */
function note(
  { restoredAfter = 1 }: PreparedMonitor,
  next: Draft,
  figure: string,
  isBad: boolean,
  { findings }: Assessment,
  time: number,
  events: MonitorEvent[],
): void {
  const { bad = none, restoring = none } = next;
  if (bad.indexOf(figure) < 0) {
    if (!isBad) return;
    next.bad = bad.concat([figure]);
    const found = findings.filter(({ quality, affects }) => quality === 'bad' && affects.indexOf(figure as never) >= 0);
    events.push({ time, event: 'quality_bad', figure, findings: found.map(({ code }) => code) });
    return;
  }
  let readings = isBad ? 0 : 1;
  const others: { readonly figure: string; readonly readings: number }[] = [];
  for (const one of restoring) {
    if (one.figure !== figure) others.push(one);
    else if (!isBad) readings += one.readings;
  }
  if (readings >= restoredAfter) {
    events.push({ time, event: 'quality_restored', figure });
    next.bad = bad.filter((one) => one !== figure);
    if (next.bad.length === 0) delete next.bad;
  } else if (readings > 0) others.push({ figure, readings });
  if (others.length > 0) next.restoring = others;
  else delete next.restoring;
}

const none: readonly never[] = [];
