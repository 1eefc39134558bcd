// The unit of the field year: the hydraulic power unit of a lock gate, and what its monitor is told.
import { iso4406, viscosityLineOfGrade } from 'motescale';

export const minute = 60000;
export const hour = 60 * minute;
export const day = 24 * hour;
export const start = Date.UTC(2026, 9, 1);
export const readings = 365 * 24;

export const oil = viscosityLineOfGrade(46, 102);
/** Solubility of water in the oil, log10(mg/kg) = a - b/T; invented, as the sensor and its data sheet are. */
const solubility = { b: 1650 };

/** Calibrated so long before the year begins; its data sheet wants it every 400 days. */
export const calibratedAt = start - 20 * day;

export const config = {
  codes: [{ table: iso4406, target: '18/16/13' }],
  limits: {
    mlPerMin: { low: 30, high: 90 },
    celsius: { low: 5, high: 75 },
    leastKPa: 20,
    mostKPa: 400,
    mostMm2PerS: 200,
    coincidencePerMl: 24000,
    countedShare: 0.5,
    viscosityLine: oil,
    solubility,
    settleMs: 5 * minute,
    flushMl: 200,
    calibrationMs: 400 * day,
  },
  alarms: [
    { id: 'dirt', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14', deadband: 1, onDelayMs: 6 * hour },
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 70, deadband: 3 },
    { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8, deadband: 0.1 },
    { id: 'little flow', type: 'low', figure: { quantity: 'mlPerMin' }, setpoint: 20, deadband: 5 },
  ],
};
