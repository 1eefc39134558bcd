/**
 * Exact scaling by powers of two, from multiplication alone: the step every portable log and exp starts or ends with.
 * The powers are products, not long literals, because small engines misread literals of seventeen digits.
 */
const two16 = 65536;
const two32 = two16 * two16;
const two64 = two32 * two32;
const two128 = two64 * two64;
const two256 = two128 * two128;
const two512 = two256 * two256;
const powers: readonly number[] = [2, 4, 16, 256, two16, two32, two64, two128, two256, two512];
const inverses: readonly number[] = [
  1 / 2,
  1 / 4,
  1 / 16,
  1 / 256,
  1 / two16,
  1 / two32,
  1 / two64,
  1 / two128,
  1 / two256,
  1 / two512,
];

/**
 * Splits a positive finite number into `mantissa * 2^exponent` with the mantissa from 1 up to, not including, 2. Exact.
 */
export function splitBinary(x: number): { mantissa: number; exponent: number } {
  return x >= 1 / two32 && x < two32 ? splitNear(x) : splitFar(x);
}

/** The same from 2^-32 up to 2^32, where most figures lie. */
function splitNear(x: number): { mantissa: number; exponent: number } {
  let mantissa = x;
  let exponent = 0;
  if (x < 1) {
    mantissa = x * two32;
    exponent = -32;
  }
  if (mantissa >= two16) {
    mantissa *= 1 / two16;
    exponent += 16;
  }
  if (mantissa >= 256) {
    mantissa *= 1 / 256;
    exponent += 8;
  }
  if (mantissa >= 16) {
    mantissa *= 1 / 16;
    exponent += 4;
  }
  if (mantissa >= 4) {
    mantissa *= 1 / 4;
    exponent += 2;
  }
  if (mantissa >= 2) {
    mantissa *= 1 / 2;
    exponent += 1;
  }
  return { mantissa, exponent };
}

function splitFar(x: number): { mantissa: number; exponent: number } {
  let mantissa = x;
  let exponent = 0;
  if (mantissa < 1 / two512) {
    mantissa *= two512;
    exponent = -512;
  }
  for (let i = powers.length - 1; i >= 0; i -= 1) {
    const power = powers[i] as number;
    const inverse = inverses[i] as number;
    if (mantissa >= power) {
      mantissa *= inverse;
      exponent += 1 << i;
    } else if (mantissa < inverse * 2) {
      mantissa *= power;
      exponent -= 1 << i;
    }
  }
  return { mantissa, exponent };
}

/** `x * 2^exponent` for a whole exponent; rounded once, where the result is subnormal. */
export function scaleBinary(x: number, exponent: number): number {
  let scaled = x;
  let left = Math.abs(exponent);
  const steps = exponent < 0 ? inverses : powers;
  for (let i = 0; left > 0 && i < steps.length; i += 1) {
    // the small powers first: a subnormal result is then rounded by the last step only
    if (left % 2 === 1) scaled *= steps[i] as number;
    left = Math.floor(left / 2);
  }
  while (left > 0) {
    scaled *= exponent < 0 ? (inverses[9] as number) : (powers[9] as number);
    scaled *= exponent < 0 ? (inverses[9] as number) : (powers[9] as number);
    left -= 1;
  }
  return scaled;
}
