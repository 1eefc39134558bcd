/**
 * Every error that is thrown says which parameter was wrong, what came and what would be right: over all wrong inputs
 * of the walk through the engines, which calls every function with each of its inputs spoilt.
 */
import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as motescale from '../../src/scripts/whole.ts';
import { walk as codes } from '../engines/cases/codes.ts';
import { walk as counts } from '../engines/cases/counts.ts';
import { walk as filtration } from '../engines/cases/filtration.ts';
import { walk as monitor } from '../engines/cases/monitor.ts';
import { walk as readers } from '../engines/cases/readers.ts';
import { walk as report } from '../engines/cases/report.ts';
import { walk as sampling } from '../engines/cases/sampling.ts';
import { walk as sure } from '../engines/cases/sure.ts';
import { walk as units } from '../engines/cases/units.ts';
import { walk as viscosity } from '../engines/cases/viscosity.ts';
import { walk as water } from '../engines/cases/water.ts';
import type { Library } from '../engines/recorder.ts';

const walks = { codes, counts, filtration, monitor, readers, report, sampling, sure, units, viscosity, water };

/** `counts.perMl[3]`, `limits.qualities.flow_low`, and the names of standards where those are keys. */
const path = /^[a-z]\w*(\.[^.[\]]+|\[\d+\]|\['[^']*'\])*$/i;
const seen: string[] = [];

/** What is wrong with an error, if anything. */
function faultOf(name: string, error: motescale.MotescaleError): string[] {
  const { code, parameter, received, expected, message } = error;
  const whole =
    motescale.isMotescaleError(error) &&
    /^[a-z_]+$/.test(code) &&
    path.test(parameter) &&
    [received, expected].every((text) => typeof text === 'string' && text.trim() !== '') &&
    // where an error holds several mistakes, its message lists them
    (/^an input without th/.test(expected) ? [parameter] : [parameter, received, expected]).every((text) =>
      message.includes(text),
    );
  return whole ? [] : [`${name}: ${code} '${parameter}' '${received}' '${expected}' ${message}`];
}

test.each(Object.entries(walks))('%s', (_name, walk) => {
  const faults: string[] = [];
  const watched = Object.fromEntries(
    Object.entries(motescale).map(([name, member]) => {
      if (typeof member !== 'function') return [name, member];
      const call = (...inputs: unknown[]) => {
        try {
          return (member as (...all: unknown[]) => unknown)(...inputs);
        } catch (error) {
          seen.push(name);
          faults.push(...faultOf(name, error as motescale.MotescaleError));
          return undefined;
        }
      };
      return [name, call];
    }),
  );
  walk(watched as unknown as Library);
  expect([...new Set(faults)]).toEqual([]);
});

test('all functions that can throw did', () => {
  expect(Object.keys(walks).map((name) => `${name}.ts`)).toEqual(readdirSync('tests/engines/cases').sort());
  expect(seen.length).toBeGreaterThan(5000);
  expect(new Set(seen).size).toBeGreaterThan(90);
});
