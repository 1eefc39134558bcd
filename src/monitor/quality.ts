/**
 * When a figure turns bad and when it can be relied on again: told once for each figure, whatever alarms stand on it.
 * One that comes and goes can be kept back by a count of readings, which knows no clock.
 */
import type { Assessment, FigureName, OtherFigure, TimedReading } from '../reading/reading.ts';
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
    if (quality === undefined) continue;
    const isBad = quality === 'bad';
    if (turns(prepared, next, figure, isBad))
      events.push(isBad ? turnedBad(assessment, figure, time) : { time, event: 'quality_restored', figure });
  }
  if (reading.others === undefined) return;
  const seen: string[] = [];
  for (const { figure } of (prepared.alarms as readonly { figure: object }[]).concat(prepared.follow)) {
    if (!('other' in figure)) continue;
    const name = figure.other as string;
    const other: OtherFigure | undefined =
      Object.keys(reading.others).indexOf(name) < 0 ? undefined : reading.others[name];
    // several may look at one figure: a reading counts once
    if (other === undefined || seen.indexOf(name) >= 0) continue;
    seen.push(name);
    const words = `other ${name}`;
    const isBad = typeof other === 'object' && other.quality === 'bad';
    if (!turns(prepared, next, words, isBad)) continue;
    events.push(
      isBad
        ? { time, event: 'quality_bad', figure: words, findings: [] }
        : { time, event: 'quality_restored', figure: words },
    );
  }
}

/** Whether a figure turns bad, or has been not bad in so many readings that it is restored; the state is brought on. */
function turns({ restoredAfter = 1 }: PreparedMonitor, next: Draft, figure: string, isBad: boolean): boolean {
  const { bad = none } = next;
  if (bad.indexOf(figure) < 0) {
    if (isBad) next.bad = bad.concat([figure]);
    return isBad;
  }
  const readings = isBad ? 0 : 1 + readingsOf(next, figure);
  const isRestored = readings >= restoredAfter;
  const counted = isRestored ? 0 : readings;
  if (counted > 0 || next.restoring !== undefined) keep(next, figure, counted);
  if (!isRestored) return false;
  const others = bad.filter((one) => one !== figure);
  if (others.length > 0) next.bad = others;
  else delete next.bad;
  return true;
}

const none: readonly string[] = [];

function readingsOf({ restoring }: Draft, figure: string): number {
  if (restoring !== undefined) for (const one of restoring) if (one.figure === figure) return one.readings;
  return 0;
}

/** With another count for one of the figures; 0 is left out. */
function keep(next: Draft, figure: string, readings: number): void {
  const restoring = (next.restoring ?? []).filter((one) => one.figure !== figure);
  if (readings > 0) restoring.push({ figure, readings });
  if (restoring.length > 0) next.restoring = restoring;
  else delete next.restoring;
}

function turnedBad({ findings }: Assessment, figure: FigureName, time: number): MonitorEvent {
  const found = findings.filter(({ quality, affects }) => quality === 'bad' && affects.indexOf(figure) >= 0);
  return { time, event: 'quality_bad', figure, findings: found.map(({ code }) => code) };
}
