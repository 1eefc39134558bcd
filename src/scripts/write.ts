/** The scripts of the package, written to dist/scripts/. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import pkg from '../../package.json' with { type: 'json' };
import { makeScript } from './make.ts';
import { exportsOf } from './readers.ts';

export const folder = 'dist/scripts';

/** What each script holds, and the files for which standIns.ts stands in. */
const scripts = {
  'motescale.global': {
    source: 'src/scripts/whole.ts',
    of: 'all but exact and german, and of schema the readings',
    instead: [],
  },
  'motescale.codes.global': { source: 'src/scripts/codes.ts', of: 'codes', instead: [] },
  'motescale.unit.global': {
    source: 'src/scripts/unit.ts',
    of: 'a machine watched',
    instead: [
      'monitor/followed/plan.ts',
      'monitor/followed/figures.ts',
      'codes/ownTable/noteUnsound.ts',
      'codes/uncertainty/errorsRule.ts',
      'monitor/probability.ts',
      'rules/hints.ts',
      'reading/otherNames.ts',
      'rules/holds.ts',
      'numeric/words.ts',
      'alarm/earlier.ts',
      'monitor/state/version1.ts',
    ],
  },
} as const;

/** Which script, which version, under which licence; whose, as the licence says. */
function bannerOf(of: string): string {
  const holder = /^Copyright .*$/m.exec(readFileSync('LICENSE', 'utf8'))?.[0];
  return `${pkg.name} ${pkg.version}: ${of}. ${pkg.license} licence. ${holder}`;
}

/** For TypeScript: what the script holds, as a global and as what `require` gives. */
function declarationOf(names: readonly string[]): string {
  const library = '../index.cjs';
  const values = exportsOf(names, library, '../schema.cjs');
  return `export type * from '${library}';\n${values}export as namespace motescale;\n`;
}

export async function writeScripts(): Promise<void> {
  mkdirSync(folder, { recursive: true });
  // The scripts are no ES modules, whatever the rest of the package is.
  writeFileSync(`${folder}/package.json`, '{ "type": "commonjs" }\n');
  for (const [file, { source, of, instead }] of Object.entries(scripts)) {
    const contents = `export * from './${source}';`;
    const wanted = { contents, file, global: 'motescale', banner: bannerOf(of), instead };
    const { names, code, readable, map } = await makeScript(wanted);
    writeFileSync(`${folder}/${file}.js`, code);
    writeFileSync(`${folder}/${file}.readable.js`, readable);
    writeFileSync(`${folder}/${file}.js.map`, map);
    writeFileSync(`${folder}/${file}.d.ts`, declarationOf(names));
  }
}
