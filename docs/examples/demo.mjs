// The main job on example data: `npm run demo`. The lock gates and their units are invented; the dust counts are
// published.
import { printDust } from './dust.mjs';
import { printField } from './field.mjs';
import { printMonth } from './month.mjs';
import { printYear } from './year.mjs';

printMonth();
printDust();
await printYear();
process.stderr.write('A year of faults, about five seconds ...\n');
printField();
