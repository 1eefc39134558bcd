/** A scale of viscosity with its temperature settled. Its limits are in mm2/s. */
export interface Conversion {
  readonly name: string;
  readonly least: number;
  readonly most: number;
  readonly into: (value: number) => number;
  readonly outOf: (mm2PerS: number) => number;
}
