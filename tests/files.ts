/** The project's own files, for tests that read them. */
import { readdirSync } from 'node:fs';

/** Paths below a folder with the given ending, in order, as `folder/...`. */
export function filesBelow(folder: string, ending: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith(ending) && !path.includes('node_modules') && !path.startsWith('site'))
    .map((path) => `${folder}/${path}`)
    .sort();
}
