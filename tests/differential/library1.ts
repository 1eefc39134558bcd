/** Version 0.1.0, as its script is. */
import { readFileSync } from 'node:fs';
import type { Face } from './adapter.ts';

const script = readFileSync(new URL('./0.1.0/motescale.global.js', import.meta.url), 'utf8');

export const library1: Face = new Function(`${script}\nreturn motescale;`)();
