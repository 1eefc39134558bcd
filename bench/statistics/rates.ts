/**
 * How often the statistics on a series are wrong, and what they find: the tables of docs/rates.md, each between its
 * marks, ready to be put there. Fixed seeds; another first argument, others.
 *
 *     npx esbuild bench/statistics/rates.ts --bundle --platform=node --format=esm --outfile=/tmp/rates.mjs
 *     node /tmp/rates.mjs 1 trend 2000       seed, table, series a cell (machine-years for the tables of changes)
 */
import { markdown, runOf } from './table.ts';
import { fingerprint, tables } from './tables.ts';

const [seedText = '1', name = '', countText = '200'] = process.argv.slice(2);
const made = tables[name];
if (made === undefined) throw new Error(`no table ${name}: one of ${Object.keys(tables).join(', ')}`);
const [seed, count] = [Number(seedText), Number(countText)];
const rows = markdown(made.table(runOf(seed, count)));
const mark = `rates ${name}: seed ${seed}, ${count} ${made.unit} a cell, fingerprint ${fingerprint(made, seed)}`;
console.log(`<!-- ${mark} -->\n\n${rows}\n\n<!-- /rates ${name} -->`);
