/**
 * An option may be there and undefined, as a member of a reading may: `{ target: unit.target }` compiles also with
 * `exactOptionalPropertyTypes`, in which this project itself is compiled.
 */
import { resolve } from 'node:path';
import ts from 'typescript';
import { expect, test } from 'vitest';
import { filesBelow } from '../files.ts';

const entries = filesBelow('src', 'index.ts').map((file) => resolve(file));
const caller = resolve('src/callerWithUndefined.ts');
const call = (option: string) => `import { cumulativeCounts } from './counts/index.ts';
import { periodFigures, sizeChart, trendChart } from './report/index.ts';
declare const maybe: string | undefined;
trendChart([], { ${option}: maybe, from: undefined, texts: undefined });
sizeChart(cumulativeCounts({ 4: 1 }), { ${option}: maybe });
periodFigures([], { ${option}: maybe });
`;

const options: ts.CompilerOptions = {
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.Preserve,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
  strict: true,
  exactOptionalPropertyTypes: true,
  noEmit: true,
  types: [],
  allowImportingTsExtensions: true,
  skipLibCheck: true,
};

function programOf(source: string): ts.Program {
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists } = host;
  host.fileExists = (path) => path === caller || fileExists(path);
  host.getSourceFile = (path, version, ...more) =>
    path === caller ? ts.createSourceFile(path, source, version) : getSourceFile(path, version, ...more);
  return ts.createProgram([...entries, caller], options, host);
}

const program = programOf(call('target'));
const checker = program.getTypeChecker();

/**
 * The members of an object type that may be left out and may not be undefined. One of type `never` may not: counts
 * whose volume turned out to be undefined would pass for counts per mL.
 */
function strictMembers(type: ts.Type): string[] {
  if (type.isUnion()) return [...new Set(type.types.flatMap(strictMembers))];
  return checker.getPropertiesOfType(type).flatMap((member) => {
    const declared = member.valueDeclaration;
    if (declared === undefined || !ts.isPropertySignature(declared) || declared.questionToken === undefined) return [];
    if (declared.type === undefined || !declared.getSourceFile().fileName.includes('/src/')) return [];
    const of = checker.getTypeFromTypeNode(declared.type);
    const takes = of.isUnion() ? of.types : [of];
    return takes.some(({ flags }) => flags & (ts.TypeFlags.Undefined | ts.TypeFlags.Never | ts.TypeFlags.Unknown))
      ? []
      : [member.name];
  });
}

test('every option of every function takes undefined', { timeout: 120_000 }, () => {
  let functions = 0;
  const strict = entries.flatMap((file) => {
    const module = checker.getSymbolAtLocation(program.getSourceFile(file) as ts.SourceFile);
    return checker.getExportsOfModule(module as ts.Symbol).flatMap((exported) => {
      const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported;
      const declared = symbol.valueDeclaration;
      if (declared === undefined || !ts.isFunctionDeclaration(declared)) return [];
      return declared.parameters.flatMap((parameter) => {
        const name = parameter.name.getText();
        if (!/options/i.test(name)) return [];
        functions += 1;
        return strictMembers(checker.getTypeAtLocation(parameter)).map((member) => `${symbol.name}: ${member}`);
      });
    });
  });
  expect([...new Set(strict)]).toEqual([]);
  expect(functions).toBeGreaterThan(40);
});

test('so they compile where they are called with what may be undefined', { timeout: 120_000 }, () => {
  const mistakes = (source: ts.Program) =>
    source.getSemanticDiagnostics(source.getSourceFile(caller)).map(({ code }) => code);
  expect(mistakes(program)).toEqual([]);
  // and a member that is none would be seen
  expect(mistakes(programOf(call('targt')))).toHaveLength(3);
});
