/** Every check, one after the other. */
import type { Writable } from '../state/writable.ts';
import {
  calibrationOverdue,
  channelsEqual,
  clockAhead,
  pressureHigh,
  viscosityOffLine,
  volumeDisagrees,
} from './assess/beyond.ts';
import { type Check, type Context, type Found, nothing } from './assess/check.ts';
import { codeDisagrees, codeUnreadable } from './assess/code.ts';
import { few, flat, tooMany } from './assess/codeDoubts.ts';
import { codeRises } from './assess/codeRise.ts';
import { clockBackwards, flowPulsating, sensorStuck, standingOil, startUp } from './assess/course.ts';
import { channelEmpty, noParticles } from './assess/empty.ts';
import { figureImplausible, plausibleOf } from './assess/implausible.ts';
import {
  flagged,
  flow,
  flowUnknown,
  noFlow,
  pressure,
  temperature,
  unflushed,
  viscosity,
} from './assess/instrument.ts';
import { countMissing, countsRise } from './assess/particles.ts';
import { channelsStuck, valuesStuck } from './assess/stuck.ts';
import { cooled, freeWater } from './assess/water.ts';
import { touchedBy } from './findingKinds.ts';
import type { FigureName, FindingCode, Reading } from './reading.ts';

const checks: readonly Check[] = [
  noFlow,
  flow,
  pressure,
  viscosity,
  temperature,
  unflushed,
  few,
  countsRise,
  tooMany,
  freeWater,
  cooled,
  flat,
  valuesStuck,
  channelsStuck,
  clockBackwards,
  flagged,
  codeDisagrees,
  pressureHigh,
  volumeDisagrees,
  viscosityOffLine,
  channelsEqual,
  calibrationOverdue,
  clockAhead,
  sensorStuck,
  flowPulsating,
  startUp,
  standingOil,
  codeUnreadable,
  codeRises,
  noParticles,
  channelEmpty,
  countMissing,
  figureImplausible,
  flowUnknown,
];

/** A reading as it came, and as it is plausible. */
interface Look {
  readonly whole: Context;
  readonly plausible: Context;
}

/**
 * All that is found; the codes of checks that could not be made stand in `unchecked` then.
 *
 * No figure that is bad passes a check: where one finds nothing with it, the answer is that without the figure, by
 * another source or none. What it finds with it is against the oil, and stays.
 */
export function findAll(context: Context, unchecked: FindingCode[]): Found[] {
  const looks: Look[] = [{ whole: context, plausible: plausibleOf(context) }];
  const all = ask(looks, unchecked);
  const { plausible } = looks[0] as Look;
  for (const figures of doubted(plausible, all))
    looks.push({ whole: leaveOut(context, figures), plausible: leaveOut(plausible, figures) });
  if (looks.length === 1) return all;
  unchecked.length = 0;
  return ask(looks, unchecked);
}

/** Each check asked of one look after the other, as long as it finds nothing. */
function ask(looks: readonly Look[], unchecked: FindingCode[]): Found[] {
  const all: Found[] = [];
  for (const check of checks) {
    const seesAll = check === figureImplausible || check === noFlow;
    let found: readonly Found[] | null = nothing;
    for (let i = 0; i < looks.length && found !== null && found.length === 0; i += 1) {
      const { whole, plausible } = looks[i] as Look;
      found = check.find(seesAll ? whole : plausible);
    }
    if (found === null) for (const code of check.codes) unchecked.push(code);
    else for (const one of found) all.push(one);
  }
  return all;
}

/** By these a figure is true, of oil or of a time that is not the machine's: of the sensor it still says all. */
const trueElsewhere: readonly FindingCode[] = ['line_not_flushed', 'standing_oil', 'clock_backwards'];

/**
 * What passes no check, in the order in which it is left out: a viscosity that contradicts the line at its temperature,
 * so that both are asked; then all figures that are bad.
 */
function doubted({ reading, limits }: Context, all: readonly Found[]): FigureName[][] {
  const bad: FigureName[] = [];
  let isOffLine = false;
  let isCelsiusBad = false;
  for (const { code, affects = touchedBy(code), quality = limits.qualities[code] } of all) {
    if (code === 'viscosity_off_line') isOffLine = true;
    if (quality !== 'bad' || trueElsewhere.indexOf(code) >= 0) continue;
    for (const name of affects) {
      // counts that are bad pass nothing, and no flow is no proof of one
      if (name === 'counts' || reading[name] === undefined || (name === 'mlPerMin' && reading[name] === 0)) continue;
      bad.push(name);
      if (name === 'celsius' && code !== 'viscosity_off_line') isCelsiusBad = true;
    }
  }
  const left: FigureName[][] = isOffLine && !isCelsiusBad ? [['mm2PerS']] : [];
  if (bad.length > 0) left.push(bad);
  return left;
}

function leaveOut(context: Context, figures: readonly FigureName[]): Context {
  const reading: Writable<Reading> = { ...context.reading };
  for (const name of figures) delete reading[name];
  return { ...context, reading };
}
