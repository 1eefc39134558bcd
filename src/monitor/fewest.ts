/** How few particles can show nothing of a change: an alarm of type rise or fall goes by no fewer. */
import { isRateOfChange } from '../alarm/plan.ts';
import type { AlarmType } from '../alarm/types.ts';
import { continuousScaleNumber, scaleNumber } from '../codes/index.ts';
import type { MonitorFigure } from '../judging/types.ts';
import { power } from '../numeric/exponential.ts';
import type { TimedReading } from '../reading/reading.ts';

/** So many standard deviations off what is expected chance brings no reading of a day (simulated; our choice). */
const deviations = 5;

/**
 * The particles below which the extremes of a steady count could be a setpoint of so many classes apart by chance
 * alone, whatever is expected: with a ratio R of two counts they lie at `2 z^2 (R + 1) / (R - 1)^2`. Null where nothing
 * of the kind is asked. Whole scale numbers may be one class apart for next to nothing.
 */
export function fewestToShow(type: AlarmType, figure: MonitorFigure, setpoint: number): number | null {
  if (!isRateOfChange(type)) return null;
  const classes = 'continuousScaleNumberAt' in figure ? setpoint : 'scaleNumberAt' in figure ? setpoint - 1 : 0;
  if (classes <= 0) return null;
  const ratio = power(2, classes);
  return (2 * deviations * deviations * (ratio + 1)) / ((ratio - 1) * (ratio - 1));
}

/** What so few particles are as the figure, in the volume of a reading; undefined where that is not known. */
export function floorOf({ counts }: TimedReading, figure: MonitorFigure, fewest: number): number | undefined {
  if (counts?.counted === undefined || counts.volumeMl === undefined) return undefined;
  const perMl = (fewest * (counts.dilution ?? 1)) / counts.volumeMl;
  return 'continuousScaleNumberAt' in figure ? continuousScaleNumber(perMl) : scaleNumber(perMl);
}
