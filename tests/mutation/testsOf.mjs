/** Which tests are asked: those that import a folder of src, themselves or through what they import of tests/. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';

const tests = readdirSync('tests', { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.test.ts'))
  .map((path) => `tests/${path}`)
  .sort();

/** They read the sources as text, start programs, compare with a stored page or take long. */
const unfit = /^tests\/(package|engines|fuzz|differential|docs\/|house\/|reference\/schema)/;
/** They draw every chart in several ways. */
const drawing = /^tests\/(reference\/report\/(expected|legible|texts)|properties\/report\/reportCharts)\./;
/** Rates of hundreds of simulated series and years: minutes for each change. */
const simulated = /^tests\/properties\/trend\/trend(Autocorrelated|Change)\./;
/** They reach every folder through src/index.ts. */
const everywhere = ['examples', 'misspelt', 'errorsThrown'].map((name) =>
  tests.find((path) => path.endsWith(`/${name}.test.ts`)),
);

/** The files of src that a file of tests reaches without passing through another file of src. */
function reached(file, seen = new Set()) {
  if (seen.has(file)) return [];
  seen.add(file);
  const names = [...readFileSync(file, 'utf8').matchAll(/(?:from|import|import\() ?'(\.[^']+)'/g)].map(
    ([, name]) => name,
  );
  return names
    .map((name) => posix.join(posix.dirname(file), name))
    .flatMap((path) => {
      if (path.startsWith('src/')) return [path];
      return path.endsWith('.ts') && existsSync(path) ? reached(path, seen) : [];
    });
}

/** The tests of these folders; with parts of paths, separated by commas, all tests with one of them in their path. */
export function testsOf(folders, parts) {
  if (parts !== '') return tests.filter((file) => parts.split(',').some((part) => file.includes(part)));
  const isOf = (path) => folders.some((folder) => path.startsWith(`src/${folder}/`));
  return [
    ...tests.filter(
      (file) => !unfit.test(file) && !drawing.test(file) && !simulated.test(file) && reached(file).some(isOf),
    ),
    ...everywhere,
  ];
}
