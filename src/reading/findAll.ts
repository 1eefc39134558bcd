/** Every check, one after the other. */
import {
  calibrationOverdue,
  channelsEqual,
  clockAhead,
  pressureHigh,
  viscosityOffLine,
  volumeDisagrees,
} from './assess/beyond.ts';
import type { Check, Context, Found } from './assess/check.ts';
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
import type { FindingCode } from './reading.ts';

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

/** All that is found; the codes of checks that could not be made are added to `unchecked`. */
export function findAll(context: Context, unchecked: FindingCode[]): Found[] {
  const all: Found[] = [];
  const plausible = plausibleOf(context);
  for (const check of checks) {
    const found = check.find(check === figureImplausible || check === noFlow ? context : plausible);
    if (found === null) for (const code of check.codes) unchecked.push(code);
    else for (const one of found) all.push(one);
  }
  return all;
}
