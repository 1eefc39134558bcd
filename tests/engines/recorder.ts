/**
 * The library with every call watched: each result, or the error thrown, goes into a digest of its function, and those
 * into one of the whole walk.
 */
import type * as library from '../../src/scripts/whole.ts';
import { addResult, addText, type Digest, newDigest } from './digest.ts';

export type Library = typeof library;

/** Functions that not every engine can run. They are walked where they can, and kept out of the digest of the whole. */
export const apart: Readonly<Record<string, () => boolean>> = {
  // a column at once, in typed arrays, which ES5 does not have
  scaleNumbers: () => typeof Float64Array !== 'undefined',
  csvColumns: () => typeof Float64Array !== 'undefined',
  classifyColumns: () => typeof Float64Array !== 'undefined',
};

interface Tally {
  readonly digest: Digest;
  calls: number;
}

export interface Recorder {
  /** The library to call. A call that throws is recorded too, and returns undefined. */
  readonly motescale: Library;
  /**
   * One line for each name, `countAt 1200 0123456789abcdef`, or `scaleNumbers absent`; one for each error that is none
   * of the library's, `stray countAt 937`; then the whole.
   */
  report(): string;
}

export function record(source: Library): Recorder {
  const names = Object.keys(source).sort();
  const watched: Record<string, unknown> = {};
  const tallies: Record<string, Tally> = {};
  const strays: string[] = [];
  names.forEach((name) => {
    const member = (source as unknown as Record<string, unknown>)[name];
    const own: Tally = { digest: newDigest(), calls: 0 };
    tallies[name] = own;
    if (typeof member !== 'function') {
      watched[name] = member;
      addResult(own.digest, member);
      return;
    }
    watched[name] = (...inputs: readonly unknown[]) => {
      own.calls += 1;
      try {
        const result = member.apply(null, inputs);
        addResult(own.digest, result);
        return result;
      } catch (error) {
        const { code, parameter } = error as { code?: string; parameter?: string };
        if (!source.isMotescaleError(error)) strays.push(`${name} ${own.calls}`);
        addText(own.digest, `${code} ${parameter}`);
        return undefined;
      }
    };
  });
  return {
    motescale: watched as unknown as Library,
    report: () => reportOf(names, tallies, strays),
  };
}

function reportOf(names: readonly string[], tallies: Record<string, Tally>, strays: readonly string[]): string {
  const whole: Tally = { digest: newDigest(), calls: 0 };
  const lines = names.map((name) => {
    const { calls, digest } = tallies[name] as Tally;
    const canRun = apart[name];
    if (canRun !== undefined && !canRun()) return `${name} absent`;
    const line = `${name} ${calls} ${digest.text()}`;
    if (canRun === undefined) {
      whole.calls += calls;
      addText(whole.digest, line);
    }
    return line;
  });
  for (const stray of strays) lines.push(`stray ${stray}`);
  return lines.concat(`whole ${whole.calls} ${whole.digest.text()}`).join('\n');
}
