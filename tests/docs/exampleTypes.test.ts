/** The examples as TypeScript: what a reader copies into a strict project compiles there, and runs. */
import { dirname, join, resolve } from 'node:path';
import ts from 'typescript';
import { expect, test } from 'vitest';
import { filesBelow } from '../files.ts';
import { full } from '../volume.ts';
import { findExamples } from './examples.ts';

const pages = ['README.md', 'DEVELOPERS.md', ...filesBelow('docs', '.md')];

/** A file that lies beside its page, so that data is found where the page has it. */
const sources = new Map(
  findExamples([...filesBelow('src', '.ts'), ...pages]).map(({ file, line, code }) => [
    resolve(dirname(file), `${file.replace(/\W/g, '_')}_line_${line}.ts`),
    `${code}\nexport {};\n`,
  ]),
);

const options: ts.CompilerOptions = {
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.Preserve,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
  lib: ['lib.es2022.d.ts', 'lib.dom.d.ts'],
  strict: true,
  noUncheckedIndexedAccess: true,
  exactOptionalPropertyTypes: true,
  // as Node and Deno run them: types are cut out, nothing is compiled
  erasableSyntaxOnly: true,
  verbatimModuleSyntax: true,
  noEmit: true,
  types: [],
  resolveJsonModule: true,
  allowImportingTsExtensions: true,
  skipLibCheck: true,
  paths: { motescale: [resolve('src/index.ts')], 'motescale/*': [join(resolve('src'), '*/index.ts')] },
};

test.runIf(full)('every example compiles in a strict project', { timeout: 120_000 }, () => {
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists, readFile } = host;
  host.fileExists = (path) => sources.has(path) || fileExists(path);
  host.readFile = (path) => sources.get(path) ?? readFile(path);
  host.getSourceFile = (path, version, ...more) => {
    const text = sources.get(path);
    return text === undefined ? getSourceFile(path, version, ...more) : ts.createSourceFile(path, text, version);
  };
  const program = ts.createProgram([...sources.keys()], options, host);
  const mistakes = [...sources.keys()].flatMap((path) => {
    const file = program.getSourceFile(path) as ts.SourceFile;
    const found = [...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file)];
    return found.map(({ messageText }) => `${path}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`);
  });
  expect(mistakes).toEqual([]);
  expect(sources.size).toBeGreaterThan(300);
});
