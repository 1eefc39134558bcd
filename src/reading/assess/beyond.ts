/**
 * What one reading shows beside its limits and its own other figures: over-pressure, a volume that does not fit the
 * flow, a viscosity that does not fit the temperature, channels that are one, a calibration that is over, a clock that
 * is ahead.
 */
import { log10, power } from '../../numeric/exponential.ts';
import { oilCounted } from '../counted.ts';
import { usualAheadMs } from '../readingLimits.ts';
import { equalRun } from '../remembered/repeats.ts';
import { byLine } from './byLine.ts';
import { above, type Check, nothing } from './check.ts';
import { areBothFlat } from './distribution.ts';
import { isBeyond } from './particles.ts';

/** More pressure than the sensor can take. */
export const pressureHigh: Check = {
  codes: ['pressure_high'],
  find: ({ reading: { kPa }, limits: { mostKPa } }) => above('pressure_high', kPa, mostKPa),
};

/** Volume and flow times time agree where neither is more than so much greater than the other. */
const volumeShare = 0.2;

/** The counter's volume beside flow and time. */
export const volumeDisagrees: Check = {
  codes: ['volume_disagrees'],
  find: ({ reading: { counts, mlPerMin, measuringSeconds }, limits: { countedShare } }) => {
    const volume = counts?.volumeMl;
    if (volume === undefined || mlPerMin === undefined || measuringSeconds === undefined) return null;
    if (countedShare === null) return null;
    if (mlPerMin === 0) return null; // has its own finding
    const limit = ((mlPerMin * measuringSeconds) / 60) * (countedShare ?? 1);
    const off = volume / limit;
    // where the share is not known, a counter still cannot count more oil than has passed
    if (countedShare === undefined && off <= 1 + volumeShare) return null;
    if (off <= 1 + volumeShare && off >= 1 / (1 + volumeShare)) return nothing;
    return [{ code: 'volume_disagrees', value: volume, limit }];
  },
};

/** The viscosity beside the oil's own line at this temperature. */
export const viscosityOffLine: Check = {
  codes: ['viscosity_off_line'],
  find: (context) => {
    const { mm2PerS } = context.reading;
    const { viscosityShare } = context.limits;
    const line = byLine(context);
    if (mm2PerS === undefined || viscosityShare === null || line === null) return null;
    const { mm2PerS: limit, beyond } = line;
    const off = mm2PerS / limit;
    const [thick, thin] = [off > 1 + viscosityShare, off < 1 / (1 + viscosityShare)];
    // beyond the end of the line only what lies on its other side is known to be off
    if (beyond !== null && !(beyond === 'thicker' ? thin : thick)) return null;
    return thick || thin ? [{ code: 'viscosity_off_line', value: mm2PerS, limit }] : nothing;
  },
};

/** Fewer than so many expected between two sizes may all be missing by chance: exp(-20) is 2e-9. */
const enoughBetween = 20;

/** A channel that shows another does so every time. */
const equalReadings = 3;

/**
 * Two sizes with one count, where dirt leaves many particles between them: one channel shows the other. A counter that
 * is full shows one count at several sizes, and so do bubbles larger than all of them.
 */
export const channelsEqual: Check = {
  codes: ['channels_equal'],
  find: ({ reading, limits: { flattestSteepness, coincidencePerMl }, repeats }) => {
    const { counts } = reading;
    if (counts === undefined || repeats === null || flattestSteepness === null || counts.sizes.length < 2) return null;
    const { sizes, perMl, counted, sizing } = counts;
    const oil = oilCounted(reading, counts) ?? 1;
    const { equal } = repeats;
    if (equal === undefined) return nothing;
    for (let i = 1; i < sizes.length; i += 1) {
      if (equalRun(equal, i - 1) < equalReadings) continue;
      const value = perMl[i] as number;
      const [from, to] = [log10(sizes[i - 1] as number), log10(sizes[i] as number)];
      // of so many at the smaller size the flattest dirt leaves this share at the larger one
      const share = to > from && from >= 0 ? power(10, -flattestSteepness * (to * to - from * from)) : 1;
      const limit = (counted?.[i] ?? value * oil) * (1 - share);
      // shown coarsely, 1 and 1 may be 1.4 and 0.6
      if (limit < enoughBetween || value * (1 - share) < 2) continue;
      if (isBeyond(counts, i, coincidencePerMl) || areBothFlat(reading, counts, i, flattestSteepness)) continue;
      return [{ code: 'channels_equal', value, limit, sizes: [sizes[i - 1] as number, sizes[i] as number], sizing }];
    }
    return nothing;
  },
};

/** A calibration that is over. */
export const calibrationOverdue: Check = {
  codes: ['calibration_overdue'],
  find: ({ reading: { time, calibratedAt }, limits: { calibrationMs, clockAheadMs } }) => {
    if (time === undefined || calibratedAt === undefined) return null;
    const age = time - calibratedAt;
    // calibrated after it was read: one of both times is wrong, and no age is known
    if (-age > (clockAheadMs ?? usualAheadMs)) return null;
    return above('calibration_overdue', age, calibrationMs);
  },
};

/** A reading from the future. */
export const clockAhead: Check = {
  codes: ['clock_ahead'],
  find: ({ reading: { time, receivedAt }, limits: { clockAheadMs } }) => {
    if (time === undefined || receivedAt === undefined) return null;
    return above('clock_ahead', time - receivedAt, clockAheadMs);
  },
};
