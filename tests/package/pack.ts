/** The package as it would be published. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pkg from '../../package.json' with { type: 'json' };

/** The entries of package.json as a user writes them: `motescale`, `motescale/codes`. */
export const entries: readonly string[] = Object.entries(pkg.exports)
  .filter(([, files]) => typeof files === 'object' && 'import' in files)
  .map(([path]) => path.replace(/^\./, 'motescale'));

/** The built file of an entry. */
export function builtFile(entry: string, ending: string): string {
  return `dist/${entry === 'motescale' ? 'index' : entry.slice('motescale/'.length)}${ending}`;
}

/** Packs what stands in dist, without building it anew under other tests; gives the folder, the file, what is in it. */
export function packed(): { folder: string; tarball: string; files: string[] } {
  const folder = mkdtempSync(join(tmpdir(), 'motescale-package-'));
  const inputs = ['pack', '--ignore-scripts', '--json', '--pack-destination', folder];
  const [{ filename, files }] = JSON.parse(execFileSync('npm', inputs, { encoding: 'utf8' }));
  return { folder, tarball: join(folder, filename), files: files.map(({ path }: { path: string }) => path) };
}
