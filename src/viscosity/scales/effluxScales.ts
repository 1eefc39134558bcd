/**
 * The older scales as data: what an efflux viscometer or cup shows, t, and the kinematic viscosity v = a t - b / t - c.
 * A scale with two branches takes the smaller of both. That is the printed rule, less a step of up to 0.7 % at the
 * printed change of branch, so the scale rises without a gap and can be undone exactly.
 */
import { greatestMm2PerS } from '../line/doubleLogarithm.ts';
import type { Conversion } from './conversion.ts';

/** One scale. `most` null: the library's end of 20 000 000 mm2/s. */
interface EffluxScale {
  readonly name: string;
  readonly least: number;
  readonly most: number | null;
  /** a, b and c of each branch. */
  readonly branches: readonly (readonly [number, number, number])[];
}

/** Names of the efflux scales: seconds of Redwood, ISO 2431 and ASTM D1200 cups, degrees Engler. */
export type EffluxScaleName =
  | 'redwood1'
  | 'redwood1-nbs'
  | 'redwood2'
  | 'engler'
  | 'engler-ubbelohde'
  | 'engler-two-branch'
  | 'iso2431-3mm'
  | 'iso2431-4mm'
  | 'iso2431-5mm'
  | 'iso2431-6mm'
  | 'd1200-1'
  | 'd1200-2'
  | 'd1200-3'
  | 'd1200-4'
  | 'd1200-5';

export const effluxScales: Readonly<Record<EffluxScaleName, EffluxScale>> = {
  redwood1: {
    name: 'Redwood No. 1 seconds (IP 70)',
    least: 34,
    most: null,
    branches: [
      [0.26, 179, 0],
      [0.247, 50, 0],
    ],
  },
  'redwood1-nbs': { name: 'Redwood No. 1 seconds (NBS T210)', least: 34, most: null, branches: [[0.26, 188, 0]] },
  redwood2: {
    name: 'Redwood No. 2 seconds (IP 70)',
    least: 32.5,
    most: null,
    branches: [
      [2.458, 100, 0],
      [2.447, 0, 0],
    ],
  },
  engler: { name: 'degrees Engler (NBS T100)', least: 1.3, most: null, branches: [[0.147 * 51.3, 374 / 51.3, 0]] },
  'engler-ubbelohde': { name: 'degrees Engler (Ubbelohde)', least: 1.3, most: null, branches: [[7.32, 6.31, 0]] },
  'engler-two-branch': {
    name: 'degrees Engler (two-branch handbook formula)',
    least: 1.35,
    most: null,
    branches: [
      [8, 8.64, 0],
      [7.6, 4, 0],
    ],
  },
  'iso2431-3mm': { name: 'ISO 2431 3 mm cup, s', least: 30, most: 100, branches: [[0.443, 200, 0]] },
  'iso2431-4mm': { name: 'ISO 2431 4 mm cup, s', least: 30, most: 100, branches: [[1.37, 200, 0]] },
  'iso2431-5mm': { name: 'ISO 2431 5 mm cup, s', least: 30, most: 100, branches: [[3.28, 220, 0]] },
  'iso2431-6mm': { name: 'ISO 2431 6 mm cup, s', least: 30, most: 100, branches: [[6.9, 570, 0]] },
  'd1200-1': { name: 'ASTM D1200 cup 1, s', least: 55, most: 100, branches: [[0.49, 0, 0.49 * 35]] },
  'd1200-2': { name: 'ASTM D1200 cup 2, s', least: 40, most: 100, branches: [[1.44, 0, 1.44 * 18]] },
  'd1200-3': { name: 'ASTM D1200 cup 3, s', least: 20, most: 100, branches: [[2.31, 0, 2.31 * 6.58]] },
  'd1200-4': { name: 'ASTM D1200 cup 4, s', least: 20, most: 100, branches: [[3.85, 0, 3.85 * 4.49]] },
  'd1200-5': { name: 'ASTM D1200 cup 5, s', least: 20, most: 100, branches: [[12.1, 0, 12.1 * 2]] },
};

export function ofEfflux({ name, least, most, branches }: EffluxScale): Conversion {
  const into = (t: number) => Math.min(...branches.map(([a, b, c]) => a * t - b / t - c));
  const outOf = (v: number) =>
    Math.max(...branches.map(([a, b, c]) => (v + c + Math.sqrt((v + c) * (v + c) + 4 * a * b)) / (2 * a)));
  return { name, least: into(least), most: most === null ? greatestMm2PerS : into(most), into, outOf };
}
