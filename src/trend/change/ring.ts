/** Windows over the remembered days, and means that a wild day hardly moves. */
import { meanOf } from '../../numeric/lists.ts';
import { medianOf } from '../../numeric/selectRank.ts';

export type Ring = readonly (number | null)[];

/** The places from `from` up to, not including, `to` that have a value. */
export function present(ring: Ring, from: number, to: number = ring.length): number[] {
  const found: number[] = [];
  for (let i = Math.max(0, from); i < to && i < ring.length; i += 1) if (ring[i] !== null) found.push(i);
  return found;
}

export function valuesAt(ring: Ring, indices: readonly number[]): number[] {
  return indices.map((i) => ring[i] as number);
}

/** The mean with wild values pulled in to three standard deviations about the median. */
export function steadyMean(values: readonly number[], floor: number): number {
  const middle = medianOf(values);
  const reach = 3 * Math.max(floor, 1.4826 * medianOf(values.map((value) => Math.abs(value - middle))));
  return meanOf(values.map((value) => Math.max(middle - reach, Math.min(middle + reach, value))));
}

/** The mean of min(z^2, 2.5^2) for a standard normal z. */
const pulledSquare = 0.9776;
export const pulledAt = 2.5;

/** Root mean square with deviations pulled in at 2.5 of it (P. J. Huber, proposal 2), a few rounds. */
export function steadyDeviation(deviations: readonly number[], floor: number): number {
  let scale = 1.4826 * medianOf(deviations.map((value) => Math.abs(value)));
  if (!(scale > 0)) scale = Math.sqrt(meanOf(deviations.map((value) => value * value)));
  for (let round = 0; round < 8; round += 1) {
    const most = pulledAt * scale * (pulledAt * scale);
    let sum = 0;
    for (let i = 0; i < deviations.length; i += 1) {
      const value = deviations[i] as number;
      sum += Math.min(value * value, most);
    }
    scale = Math.sqrt(sum / deviations.length / pulledSquare);
  }
  return Math.max(floor, scale);
}

/** The same from a running mean of squares that were pulled in. */
export function fromSquare(square: number): number {
  return Math.sqrt(square / pulledSquare);
}
