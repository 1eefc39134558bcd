// Three hydraulic units of a canal's lock gates and what happens to them in a working year. All of it is invented.
import { readFileSync } from 'node:fs';

/** The unit of the lower gate, its oil and its sensor: the example of all pages. */
export const lowerGate = JSON.parse(readFileSync(new URL('../lower-gate.json', import.meta.url), 'utf8'));
export const day = 86400000;
export const hour = 3600000;
export const minute = 60000;
/** 1 October 2024, 00:00 UTC: the canal's working year begins. */
export const start = 19997 * day;
/** Minutes from one reading to the next. */
export const interval = 5;
export const sizes = [4, 6, 14, 21];

/**
 * The units of a span of so many days: each event lies at a fixed share of it, at a fixed time of day. Sizes in µm(c),
 * counts per mL; `beta` and `litresPerMin` are those of the unit's own filter. The oil is VG 46; its water solubility
 * was measured at two temperatures.
 */
export function unitsOf(days) {
  const at = (share, hours) => start + Math.floor(days * share) * day + hours * hour;
  const leak = at(0.42, 3);
  const repair = leak + 9 * day + 5 * hour;
  const collapse = at(0.7, 2.2);
  const stopped = collapse + hour;
  const coupled = collapse + 6 * hour;
  const fitted = collapse + 8.3 * hour;
  return [
    {
      name: 'Upper gate',
      target: '18/16/13',
      alarm: '19/17/14',
      litres: 1200,
      litresPerMin: 60,
      beta: [2, 5, 75, 200],
      usual: [720, 236, 22, 6.4],
      celsius: 40,
      water: 95,
      seed: 12,
    },
    {
      name: lowerGate.name,
      target: lowerGate.target,
      alarm: '19/17/14',
      litres: lowerGate.tank.litres,
      litresPerMin: lowerGate.pump.litresPerMin,
      beta: [2, 5, 75, 200],
      usual: [650, 205, 19, 5.6],
      celsius: 42,
      water: 105,
      seed: 23,
      // seals wear: what comes in grows by this share of the usual each day
      wear: 1.3 / days,
      // the sensor shows the same figures for seven hours, then nothing for four and a half days
      stuck: { from: at(0.25, 21), to: at(0.25, 28) },
      silent: { from: at(0.25, 28), to: at(0.25, 129) },
      // the element collapses: what it held is set free, and little is held back until the unit is stopped; the
      // sampling loop runs on
      collapse: { from: collapse, to: fitted, holds: 0.13, sheds: [5200, 2300, 330, 90] },
      stands: { from: stopped, to: fitted },
      // the cart is coupled to the unit at rest; a real tank mixes worse than the equation has it
      cart: { from: coupled, to: fitted, litresPerMin: 40, beta: [4, 20, 200, 1000], mixing: 0.55 },
      work: [
        { time: stopped, text: 'unit stopped and locked out, pressure let off; the gate is closed to boats' },
        { time: coupled, text: 'cart coupled to the unit at rest' },
        { time: fitted, text: 'cart taken off, new filter element in; the unit runs again' },
      ],
    },
    {
      name: 'Filling valves',
      target: '15/13/10',
      alarm: '16/14/11',
      litres: 400,
      litresPerMin: 30,
      beta: [5, 20, 200, 1000],
      usual: [112, 33, 3.1, 0.9],
      celsius: 39,
      water: 85,
      seed: 37,
      // a cooler tube leaks: mg of water per kg of oil and day
      leak: { from: leak, to: repair, perDay: 36 },
      // the unit stands still and is filled with new oil, then flushed through a filter of its own
      silent: { from: repair, to: repair + 8 * hour },
      flush: {
        from: repair + 8 * hour,
        to: repair + 24 * hour,
        newOil: [6800, 2100, 150, 40],
        // a branch that lay shut is opened and brings its dirt
        branch: { from: repair + 9.8 * hour, brings: [900, 280, 22, 6] },
        litresPerMin: 60,
        beta: [20, 75, 1000, 1000],
        target: '14/12/9',
      },
      work: [
        { time: repair, text: 'unit stopped: cooler repaired, oil drained' },
        { time: repair + 8 * hour, text: 'filled with new oil; the flush begins' },
      ],
    },
  ];
}

/** The day after which a unit is as it now is: trends do not run across such work. */
export function asItIsSince(unit) {
  const ends = [unit.collapse?.to, unit.flush?.to].filter((time) => time !== undefined);
  return ends.length === 0 ? start : Math.ceil((Math.max(...ends) - start) / day) * day + start;
}

export const { oil, sensor, wanted } = lowerGate;
export const solubilityPoints = [
  { celsius: 20, mgPerKg: 190 },
  { celsius: 60, mgPerKg: 720 },
];
