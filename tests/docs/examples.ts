/**
 * Finds the examples of README, docs and doc comments, and runs them.
 *
 * `expression; // => value` checks equality, `expression; // ~> 29.06` checks the number to the digits printed. The
 * mark may stand on the next line. A page may import data that lies beside it:
 * `import gate from './examples/lower-gate.json' with { type: 'json' }`.
 */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';
import * as vega from 'vega';
import * as vegaLite from 'vega-lite';
import { expect } from 'vitest';
import * as acceptance from '../../src/acceptance/index.ts';
import * as alarm from '../../src/alarm/index.ts';
import * as codes from '../../src/codes/index.ts';
import * as counts from '../../src/counts/index.ts';
import * as exact from '../../src/exact/index.ts';
import * as filtration from '../../src/filtration/index.ts';
import * as german from '../../src/german/index.ts';
import * as history from '../../src/history/index.ts';
import * as motescale from '../../src/index.ts';
import * as monitor from '../../src/monitor/index.ts';
import * as reading from '../../src/reading/index.ts';
import * as report from '../../src/report/index.ts';
import * as sampling from '../../src/sampling/index.ts';
import * as schema from '../../src/schema/index.ts';
import * as trend from '../../src/trend/index.ts';
import * as viscosity from '../../src/viscosity/index.ts';
import * as water from '../../src/water/index.ts';

export interface Example {
  readonly file: string;
  readonly line: number;
  readonly code: string;
}

/** Every fenced `ts` block of the files: of pages, or of the doc comments in sources. */
export function findExamples(files: readonly string[]): Example[] {
  return files.flatMap((file) => {
    const text = readFileSync(file, 'utf8');
    const stripped = file.endsWith('.md') ? text : text.replace(/^[ \t]*\*(?!\/) ?/gm, '');
    return [...stripped.matchAll(/```ts\n([\s\S]*?)```/g)].map((match) => ({
      file,
      line: stripped.slice(0, match.index).split('\n').length + 1,
      code: match[1] as string,
    }));
  });
}

/** Runs one example; returns how many results it checked. */
export function runExample(example: Example): number {
  let checks = 0;
  const check = (actual: unknown, expected: unknown) => {
    checks += 1;
    expect(actual, `${example.file}:${example.line}`).toEqual(expected);
  };
  const near = (actual: unknown, printed: string) => {
    checks += 1;
    const decimals = printed.split('.')[1]?.length ?? 0;
    expect(Number(actual).toFixed(decimals), `${example.file}:${example.line}`).toBe(printed);
  };
  const checked = example.code.replace(
    /^(\s*(?:if \(.*?\) )?)(.*?);[ \t]*(?:\n[ \t]*)?\/\/ (=|~)> (.*)$/gm,
    (_line, indent: string, expression: string, kind: string, expected: string) => {
      const declared = /^const (\w+) = /.exec(expression);
      const target = declared ? declared[1] : expression;
      const call = kind === '=' ? `check(${target}, (${expected}));` : `near(${target}, ${JSON.stringify(expected)});`;
      return declared ? `${indent}${expression};\n${call}` : `${indent}${call}`;
    },
  );
  const script = ts.transpileModule(checked, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.CommonJS, removeComments: true },
  }).outputText;
  const modules: Record<string, unknown> = {};
  for (const match of checked.matchAll(/from '((?:motescale|vega)[\w/-]*)'/g))
    modules[match[1] as string] = entries[match[1] as string];
  for (const [, path] of checked.matchAll(/from '(\.[\w./-]*\.json)'/g))
    modules[path as string] = {
      __esModule: true,
      default: JSON.parse(readFileSync(join(dirname(example.file), path as string), 'utf8')),
    };
  const print = { log: () => undefined };
  new Function('require', 'exports', 'check', 'near', 'console', script)(
    (name: string) => modules[name],
    {},
    check,
    near,
    print,
  );
  return checks;
}

/** From source, so that the examples are of the library as it stands. */
export const entries: Readonly<Record<string, unknown>> = {
  motescale,
  'motescale/acceptance': acceptance,
  'motescale/alarm': alarm,
  'motescale/codes': codes,
  'motescale/counts': counts,
  'motescale/exact': exact,
  'motescale/filtration': filtration,
  'motescale/german': german,
  'motescale/history': history,
  'motescale/monitor': monitor,
  'motescale/reading': reading,
  'motescale/report': report,
  'motescale/sampling': sampling,
  'motescale/schema': schema,
  'motescale/trend': trend,
  'motescale/viscosity': viscosity,
  'motescale/water': water,
  vega,
  'vega-lite': vegaLite,
};
