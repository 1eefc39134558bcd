/**
 * A digest of any result, exact to the last bit and the same on every engine.
 *
 * Numbers are taken apart with * and / into whole numbers: printing or parsing a double is just what small engines get
 * wrong. Strings, lists and records are taken in with their structure; the keys of a record in alphabetical order,
 * since engines keep their own.
 */

/** Takes in whole numbers from 0 to 2^31 - 2, one after the other. */
export interface Digest {
  add(word: number): void;
  text(): string;
}

/**
 * Two polynomials over the words, each modulo a prime just below 2^31: one word changed changes both for certain. No
 * step leaves the 53 bits of a double.
 */
export function newDigest(): Digest {
  let first = 1;
  let second = 1;
  return {
    add(word) {
      first = (first * 1000003 + word) % 2147483647;
      second = (second * 999983 + word) % 2147483629;
    },
    text: () => hexadecimal(first) + hexadecimal(second),
  };
}

function hexadecimal(word: number): string {
  let text = '';
  for (let shift = 28; shift >= 0; shift -= 4) text += '0123456789abcdef'.charAt((word >>> shift) & 15);
  return text;
}

/** Takes in a result: numbers, texts, yes and no, null, lists, typed arrays, records. */
export function addResult(digest: Digest, result: unknown): void {
  if (typeof result === 'number') addNumber(digest, result);
  else if (typeof result === 'string') addText(digest, result);
  else if (typeof result === 'boolean') digest.add(result ? 11 : 12);
  else if (result === undefined) digest.add(13);
  else if (result === null) digest.add(14);
  else if (typeof result !== 'object') digest.add(15);
  else if (isList(result)) {
    digest.add(16);
    digest.add(result.length);
    for (let i = 0; i < result.length; i += 1) addResult(digest, result[i]);
  } else {
    const keys = Object.keys(result).sort();
    digest.add(17);
    digest.add(keys.length);
    for (const key of keys) {
      addText(digest, key);
      addResult(digest, (result as Record<string, unknown>)[key]);
    }
  }
}

function isList(value: object): value is ArrayLike<unknown> {
  return Array.isArray(value) || Object.prototype.toString.call(value) === '[object Uint8Array]';
}

export function addText(digest: Digest, text: string): void {
  digest.add(18);
  digest.add(text.length);
  for (let i = 0; i < text.length; i += 1) digest.add(text.charCodeAt(i));
}

const two26 = 67108864;
const two32 = 4294967296;

function addNumber(digest: Digest, x: number): void {
  const sign = x < 0 || 1 / x < 0 ? 1 : 0;
  let rest = Math.abs(x);
  if (x !== x || rest === 1 / 0) {
    digest.add(x !== x ? 21 : 22 + sign);
    return;
  }
  digest.add(24 + sign);
  if (rest === 0) {
    digest.add(0);
    return;
  }
  // powers of two only: every step is exact, also below the smallest normal double
  let exponent = 1;
  for (; rest >= two32; rest /= two32) exponent += 32;
  for (; rest < 1 / two32; rest *= two32) exponent -= 32;
  for (; rest >= 2; rest /= 2) exponent += 1;
  for (; rest < 1; rest *= 2) exponent -= 1;
  const high = Math.floor(rest * two26);
  digest.add(2000 + exponent);
  digest.add(high);
  digest.add((rest * two26 - high) * two26);
}
