/**
 * The declarations of the sources, written below a folder, each file read for itself, as `isolatedDeclarations` lets it
 * be. Types are checked elsewhere, once: `npm run typecheck`.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';

const { ES2022 } = ts.ScriptTarget;
const compilerOptions = { isolatedDeclarations: true, target: ES2022, module: ts.ModuleKind.ESNext };

/** `src/codes/index.ts` becomes `FOLDER/src/codes/index.d.ts`. */
export function writeDeclarations(folder: string): void {
  const paths = readdirSync('src', { recursive: true, encoding: 'utf8' });
  for (const path of paths.filter((each) => each.endsWith('.ts') && !/^(scripts|tsup)/.test(each))) {
    const { outputText, diagnostics = [] } = ts.transpileDeclaration(readFileSync(join('src', path), 'utf8'), {
      compilerOptions,
      fileName: path,
      reportDiagnostics: true,
    });
    const problems = diagnostics.map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, ' '));
    if (problems.length > 0) throw new Error(`src/${path}: ${problems.join('; ')}`);
    const declared = join(folder, 'src', path.replace(/ts$/, 'd.ts'));
    mkdirSync(dirname(declared), { recursive: true });
    writeFileSync(declared, outputText);
  }
}
