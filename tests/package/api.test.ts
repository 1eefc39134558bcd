/**
 * The public face of each entry, as a report that a reviewer reads: names, parameters, members, types. Where a change
 * is meant, `npm run api` writes the reports of tests/package/api anew. They are made from declarations of the sources
 * one by one, so that no name of a built chunk stands in them.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { CompilerState, Extractor, ExtractorConfig } from '@microsoft/api-extractor';
import { afterAll, expect, test } from 'vitest';
import { writeDeclarations } from '../../src/scripts/declarations.ts';
import { all } from '../engines/engines.ts';
import { full } from '../volume.ts';
import { entries } from './pack.ts';

const folder = mkdtempSync(join(tmpdir(), 'motescale-api-'));
afterAll(() => rmSync(folder, { recursive: true }));

const names = entries.map((entry) => entry.replace(/^motescale\/?/, '') || 'motescale');
const declarationOf = (name: string) => join(folder, 'src', name === 'motescale' ? '' : name, 'index.d.ts');

const compilerOptions = {
  target: 'es2022',
  lib: ['es2022'],
  module: 'nodenext',
  types: [],
  strict: true,
  exactOptionalPropertyTypes: true,
  skipLibCheck: true,
  allowImportingTsExtensions: true,
  noEmit: true,
};
const silent = { default: { logLevel: 'none' as never } };

function configOf(name: string): ExtractorConfig {
  return ExtractorConfig.prepare({
    configObject: {
      projectFolder: folder,
      mainEntryPointFilePath: declarationOf(name),
      newlineKind: 'lf',
      compiler: { overrideTsconfig: { compilerOptions, include: ['src'] } },
      apiReport: { enabled: true, reportFileName: `${name}.api.md`, reportFolder: folder, reportTempFolder: folder },
      messages: { extractorMessageReporting: silent, tsdocMessageReporting: silent, compilerMessageReporting: silent },
    },
    configObjectFullPath: undefined,
    packageJsonFullPath: resolve('package.json'),
  });
}

/** A long line has one for each member of its union, or each parameter: one more is one line of a review. */
function broken(line: string): string {
  if (line.length <= 110) return line;
  return line.includes(' | ') ? line.replace(/ \| /g, '\n    | ') : line.replace(/, /g, ',\n    ');
}

/** What an entry exports, a declaration each. */
function declarationsOf(report: string): string[] {
  const [, code = ''] = /```ts\n([\s\S]*)```/.exec(report) ?? [];
  const parts = code.replace(/^ *\/\/ \((undocumented|No @packageDocumentation).*\n/gm, '').split('// @public');
  return parts.map((part) => part.trim().split('\n').map(broken).join('\n')).filter((part) => part !== '');
}

function reports(): Map<string, string[]> {
  writeDeclarations(folder);
  const additionalEntryPoints = names.map(declarationOf);
  const compilerState = CompilerState.create(configOf(names[0] as string), { additionalEntryPoints });
  const made = names.map((name): [string, string[]] => {
    Extractor.invoke(configOf(name), {
      localBuild: true,
      compilerState,
      messageCallback: (told) => (told.handled = true),
    });
    return [name, declarationsOf(readFileSync(join(folder, `${name}.api.md`), 'utf8'))];
  });
  return new Map(made);
}

test.runIf(all || full)('the reports stand as the sources declare', async () => {
  const made = reports();
  const elsewhere = new Set(names.slice(1).flatMap((name) => made.get(name) ?? []));
  for (const [name, all] of made) {
    const whole = name === 'motescale';
    const [title, own] = whole
      ? ['motescale, beside what the other reports have', all.filter((each) => !elsewhere.has(each))]
      : [`motescale/${name}`, all];
    expect(all.length, name).toBeGreaterThan(1);
    const text = `# ${title}\n\n\`\`\`ts\n${own.join('\n\n')}\n\`\`\`\n`;
    await expect(text, name).toMatchFileSnapshot(`api/${name}.api.md`);
  }
});
