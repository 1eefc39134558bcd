/**
 * When a figure turns bad and when it can be relied on again: told once for each figure, whatever alarms stand on it.
 */
import type { Assessment, FigureName, OtherFigure, TimedReading } from '../reading/reading.ts';
import { figureNames } from '../reading/rules.ts';
import type { MonitorEvent, PreparedMonitor } from './types.ts';

/** The figures that are bad after a reading in order, in words; a figure that the reading lacks stays as it was. */
export function badAfter(
  prepared: PreparedMonitor,
  before: readonly string[],
  reading: TimedReading,
  assessment: Assessment,
  time: number,
  events: MonitorEvent[],
): readonly string[] {
  const { figureQualities } = assessment;
  let bad = before;
  for (let i = 0; i < figureNames.length; i += 1) {
    const figure = figureNames[i] as FigureName;
    const quality = figureQualities[figure];
    if (quality === undefined) continue;
    const was = bad.indexOf(figure) >= 0;
    if (was === (quality === 'bad')) continue;
    bad = turned(bad, figure, !was);
    events.push(was ? { time, event: 'quality_restored', figure } : turnedBad(assessment, figure, time));
  }
  if (reading.others === undefined) return bad;
  for (const { figure } of (prepared.alarms as readonly { figure: object }[]).concat(prepared.follow)) {
    if (!('other' in figure)) continue;
    const name = figure.other as string;
    const other: OtherFigure | undefined =
      Object.keys(reading.others).indexOf(name) < 0 ? undefined : reading.others[name];
    if (other === undefined) continue;
    const words = `other ${name}`;
    const was = bad.indexOf(words) >= 0;
    const is = typeof other === 'object' && other.quality === 'bad';
    if (was === is) continue;
    bad = turned(bad, words, is);
    events.push(
      was
        ? { time, event: 'quality_restored', figure: words }
        : { time, event: 'quality_bad', figure: words, findings: [] },
    );
  }
  return bad;
}

function turned(bad: readonly string[], figure: string, is: boolean): readonly string[] {
  return is ? bad.concat([figure]) : bad.filter((one) => one !== figure);
}

function turnedBad({ findings }: Assessment, figure: FigureName, time: number): MonitorEvent {
  const found = findings.filter(({ quality, affects }) => quality === 'bad' && affects.indexOf(figure) >= 0);
  return { time, event: 'quality_bad', figure, findings: found.map(({ code }) => code) };
}
