/**
 * What only the readings before can tell, beside stuck counts: a thermometer or water sensor that has frozen, a flow
 * that pulsates, oil that stood or has not settled since the flow began.
 */
import { type FlowCourse, mostAge, mostMicrolitres, notRun } from '../remembered/repeats.ts';
import { mayBeAtRest, steadyLimit } from '../remembered/steady.ts';
import { below, type Check, type Found, nothing } from './check.ts';

/** Of a flow that has only been bad. */
const notTold: Partial<FlowCourse> = {};

/** The thermometer or the water sensor shows one value to the last digit. */
export const sensorStuck: Check = {
  codes: [],
  find: ({ limits: { stuckChance }, repeats, reading }) => {
    if (stuckChance === null || repeats === null || repeats.steady === undefined) return nothing;
    const found: Found[] = [];
    for (const name of ['celsius', 'waterSaturation'] as const) {
      const one = repeats.steady[name];
      if (one === undefined || reading[name] !== one.value) continue;
      // no limit is below two readings
      if (one.run < 2 || mayBeAtRest(repeats, one)) continue;
      // oil with free water in it stands at the upper end; at the lower one a cut wire does sooner than any oil
      if (name === 'waterSaturation' && one.value === 1) continue;
      const limit = steadyLimit(one, stuckChance);
      if (one.run >= limit) found.push({ code: 'values_stuck', value: one.run, limit, affects: [name] });
    }
    return found;
  },
};

/** Fewer swings are no mean. */
const fewestSwings = 6;

/** The flow goes up and down. */
export const flowPulsating: Check = {
  codes: ['flow_pulsating'],
  find: ({ reading: { mlPerMin }, limits: { flowSwing }, repeats }) => {
    const flow = repeats?.flow;
    if (mlPerMin === undefined || flowSwing === null || flow === undefined || flow.swings < fewestSwings) return null;
    if (mlPerMin === 0 || flow.swing <= flowSwing) return nothing;
    return [{ code: 'flow_pulsating', value: flow.swing, limit: flowSwing }];
  },
};

/**
 * The flow began not long ago, and the oil has not settled; where no limit is set, within the measurement itself. It
 * began between the last reading without flow and the first with it: how long ago at least, and at most. Where nobody
 * saw it begin, and it has not run for long enough since, it may have.
 */
export const startUp: Check = {
  codes: ['start_up'],
  find: ({ reading: { time, mlPerMin, measuringSeconds }, limits: { settleMs }, repeats }) => {
    if (time === undefined || mlPerMin === undefined || repeats === null) return null;
    if (settleMs === null || (settleMs === undefined && measuringSeconds === undefined)) return null;
    if (mlPerMin === 0) return nothing;
    const { seen, ran, gap } = repeats.flow ?? notTold;
    const limit = settleMs ?? 1000 * (measuringSeconds as number);
    const { 0: value } = seen ?? ran ?? notRun;
    if (value >= Math.min(limit, mostAge)) return nothing;
    if (seen === undefined) return null;
    return [{ code: 'start_up', value, limit, ...(gap === undefined ? {} : { most: value + gap }) }];
  },
};

/** The flow began not long ago, and the line still holds what stood in it; or nobody saw it begin, and it may. */
export const standingOil: Check = {
  codes: ['standing_oil'],
  find: ({ reading: { time, mlPerMin, flushedMl }, limits: { flushMl }, repeats }) => {
    if (time === undefined || mlPerMin === undefined || repeats === null || flushMl === null) return null;
    // too little since the line was opened has its own finding; enough of it may have passed before the pump stood
    if (mlPerMin === 0 || (flushedMl !== undefined && flushedMl < flushMl)) return nothing;
    const { seen, ran } = repeats.flow ?? notTold;
    const { 1: microlitres } = seen ?? ran ?? notRun;
    if (microlitres >= Math.min(1000 * flushMl, mostMicrolitres)) return nothing;
    return seen === undefined ? null : [{ code: 'standing_oil', value: microlitres / 1000, limit: flushMl }];
  },
};

/** Ended before the last reading that has a time. */
export const clockBackwards: Check = {
  codes: ['clock_backwards'],
  find: ({ reading, repeats }) => below('clock_backwards', reading.time, repeats === null ? null : repeats.before),
};
