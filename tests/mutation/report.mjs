/** What a run found: a table by file, the survivors one by one, the share noticed with its interval. */
import { readFileSync, writeFileSync } from 'node:fs';

/** A change, named so that two runs over the same sources agree. */
export function keyOf(file, { location: { start, end }, mutatorName, replacement }) {
  const at = `${start.line}:${start.column}-${end.line}:${end.column}`;
  return `${file} ${at} ${mutatorName} ${replacement}`;
}

const tried = ['Killed', 'Timeout', 'Survived', 'NoCoverage'];
const isAlive = ({ status }) => status === 'Survived' || status === 'NoCoverage';

const mutantsOf = ({ files }) =>
  Object.entries(files).flatMap(([file, { mutants, source }]) =>
    mutants.map((mutant) => ({ ...mutant, file, source })),
  );

export const survivorsIn = (report) =>
  mutantsOf(report)
    .filter(isAlive)
    .map((mutant) => keyOf(mutant.file, mutant));

/** The interval of Wilson at 95 % for so many of a sample. */
function wilson(killed, all) {
  const z = 1.96;
  const share = killed / all;
  const middle = (share + (z * z) / (2 * all)) / (1 + (z * z) / all);
  const half = (z * Math.sqrt((share * (1 - share)) / all + (z * z) / (4 * all * all))) / (1 + (z * z) / all);
  return [middle - half, middle + half];
}

/** Prints a report; what a second run killed counts as killed, and is written back. */
export function told(path, again) {
  const report = JSON.parse(readFileSync(path, 'utf8'));
  if (again !== null) {
    const later = new Map(
      mutantsOf(JSON.parse(readFileSync(again, 'utf8'))).map((one) => [keyOf(one.file, one), one.status]),
    );
    for (const [file, { mutants }] of Object.entries(report.files))
      for (const mutant of mutants.filter(isAlive)) {
        const now = later.get(keyOf(file, mutant));
        if (now !== undefined && tried.includes(now)) mutant.status = now;
      }
    writeFileSync(path, JSON.stringify(report));
  }
  const all = mutantsOf(report);
  const asked = all.filter(({ status }) => tried.includes(status));
  const alive = asked.filter(isAlive);
  for (const { file, source, location, mutatorName, replacement, status } of alive) {
    const { start, end } = location;
    const line = source.split('\n')[start.line - 1];
    const old =
      start.line === end.line ? line.slice(start.column - 1, end.column - 1) : `${line.slice(start.column - 1)} ...`;
    const short = (text) => text.replace(/\s+/g, ' ').slice(0, 90);
    console.log(`${file}:${start.line} ${status} ${mutatorName}: ${short(old)} => ${short(replacement ?? '')}`);
  }
  for (const file of new Set(asked.map((one) => one.file))) {
    const own = asked.filter((one) => one.file === file);
    const lost = own.filter(isAlive).length;
    if (lost > 0) console.log(`${file}: ${lost} of ${own.length} survived`);
  }
  const count = (...names) => all.filter(({ status }) => names.includes(status)).length;
  const killed = asked.length - alive.length;
  const [from, to] = wilson(killed, asked.length).map((part) => (100 * part).toFixed(1));
  const onImport = count('Ignored');
  const interval = count('CompileError') > 0 ? `, in all ${from} to ${to} % (95 %)` : '';
  console.log(
    `${asked.length} tried of ${all.length - onImport} (${onImport} more run only on import): ${killed} noticed, ` +
      `of these ${count('Timeout')} by taking too long; ${count('Survived')} survived, ` +
      `${count('NoCoverage')} reached by no test; ${((100 * killed) / asked.length).toFixed(1)} %${interval}`,
  );
  return asked.length === 0 ? 1 : killed / asked.length;
}
