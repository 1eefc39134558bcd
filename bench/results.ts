/** `npm run bench`: what each figure costs beside what a user would write or install, to bench/RESULTS.md. */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { notes } from './notes.ts';
import { rows } from './rows.ts';

// npm runs its commands in the folder of package.json
const root = `${process.cwd()}/`;
const versionOf = (name: string): string =>
  (JSON.parse(readFileSync(`${root}node_modules/${name}/package.json`, 'utf8')) as { version: string }).version;
const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: root, encoding: 'utf8' }).trim();
const load = () => loadavg().map((value) => value.toFixed(1));
const before = load();
const table = rows();
const after = load();

const text = `# Speed

Written by \`npm run bench\`. Variants of a row run in turn in one process; a ratio is the median of the ratios of its
rounds, the spread its least and greatest. A time on a busy machine is too long; a ratio suffers less.

- ${cpus().length} x ${cpus()[0]?.model.trim()}, Node ${process.versions.node}, at ${commit}
- zod ${versionOf('zod')}, papaparse ${versionOf('papaparse')}
- load (1, 5, 15 minutes) ${before.join(', ')} before and ${after.join(', ')} after

| what | beside | time | ratio (least to greatest) | wanted | |
| --- | --- | --- | --- | --- | --- |
${table.map((row) => `| ${row.join(' | ')} |`).join('\n')}

What was tried where rows miss, or missed, what is wanted:

${notes.map(item).join('\n')}
`;
writeFileSync(`${root}bench/RESULTS.md`, text);
console.log(text);

/** An item of a list, in lines of at most 120 characters. */
function item(text: string): string {
  return `- ${text}`.replace(/(.{1,118})( |$)/g, '$1\n  ').trimEnd();
}
