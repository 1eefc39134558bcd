// A unit watched for its working year, reading by reading: read, assess, classify, alarm, trend, roll up. What is kept
// is days, events and one month.
import {
  advanceAcceptance,
  advanceMonitor,
  iso4406,
  prepareAcceptance,
  prepareMonitor,
  reportReading,
  startAcceptance,
  startMonitor,
} from 'motescale';
import { daysOf } from './days.mjs';
import { generate } from './generate.mjs';
import { day, hour, minute, sensor } from './units.mjs';

/** What the monitor of a unit is told. Setpoints and delays are the user's choice: no standard sets them. */
export function watchConfig({ target, alarm }) {
  return {
    codes: [{ table: iso4406, target }],
    limits: {
      mlPerMin: sensor.mlPerMin,
      celsius: sensor.celsius,
      leastKPa: sensor.leastKPa,
      mostMm2PerS: sensor.mostMm2PerS,
      coincidencePerMl: sensor.coincidencePerMl,
    },
    alarms: [
      { id: 'dirt', type: 'high', figure: { code: 'iso4406' }, setpoint: alarm, deadband: 1, onDelayMs: 30 * minute },
      {
        id: 'dirt rises',
        type: 'rise',
        figure: { continuousScaleNumberAt: 6 },
        setpoint: 2,
        withinMs: day,
        deadband: 1,
        onDelayMs: 10 * minute,
      },
      {
        id: 'water',
        type: 'high',
        figure: { quantity: 'waterSaturation' },
        setpoint: 0.8,
        deadband: 0.1,
        onDelayMs: hour,
      },
    ],
    follow: [
      { id: '6 µm(c)', figure: { continuousScaleNumberAt: 6 } },
      { id: 'water', figure: { other: 'mgPerKg' }, least: 30 },
    ],
    staleAfterMs: hour,
  };
}

/** What proves a flush: numbers, time and volume are common practice. */
export function proofConfig({ flush, litres }) {
  return {
    table: iso4406,
    target: flush.target,
    readings: 20,
    leastMs: 2 * hour,
    leastLitres: 7 * litres,
    maxGapMs: 15 * minute,
  };
}

/** Watches a unit over so many days; readings between `keep.from` and `keep.to` are kept as a report wants them. */
export function watch(unit, days, keep = { from: 0, to: 0 }) {
  const prepared = prepareMonitor(watchConfig(unit));
  const proof = unit.flush && prepareAcceptance(proofConfig(unit));
  let state = startMonitor(prepared);
  let acceptance = proof && startAcceptance(proof);
  const rolled = daysOf();
  const counted = { good: 0, uncertain: 0, bad: 0, inTarget: 0 };
  const events = [];
  const kept = [];
  let lastBad = null;
  generate(unit, days, (given) => {
    // the litre counter of the flush is for the proof alone
    const { litres: _litres, ...measured } = given;
    // the host's clock tells a pause from a clock that was set; here both clocks agree
    const reading = { ...measured, receivedAt: measured.time };
    const step = advanceMonitor(prepared, state, reading);
    state = step.state;
    const { verdict } = step;
    for (const event of step.events) events.push(event);
    counted[verdict.quality] += 1;
    if (verdict.inTarget) counted.inTarget += 1;
    if (verdict.quality !== 'bad') lastBad = null;
    else {
      if (lastBad === null) {
        lastBad = { time: reading.time, event: 'bad_readings', finding: verdict.findings[0].code, number: 0 };
        events.push(lastBad);
      }
      lastBad.number += 1;
      lastBad.until = reading.time;
    }
    rolled.take(reading, verdict);
    if (reading.time >= keep.from && reading.time < keep.to) kept.push(reportReading(reading, verdict));
    if (proof && reading.time >= unit.flush.from && acceptance.accepted === undefined) {
      acceptance = advanceAcceptance(proof, acceptance, given).state;
    }
  });
  return { unit, counted, events, days: rolled.close(), kept, accepted: acceptance?.accepted ?? null };
}
