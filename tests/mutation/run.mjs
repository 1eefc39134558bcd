// Changes the sources in small ways, one at a time, and asks the tests whether they notice.
//
//   npm run mutation -- water                      a folder of src
//   npm run mutation -- src/codes/meets.ts         a file, or lines of it: src/codes/meets.ts:40-60
//   npm run mutation -- --changed main             the files that differ from a commit
//   npm run mutation -- codes --share 0.1          a tenth of the changes, drawn by --seed 4406
//   npm run mutation -- codes --survivors          what survived last time, after a test was added
//   npm run mutation -- src/codes/meets.ts --tests reading/,Codes   asked of tests with one of these in their path
//
// Asked are the tests that import the folder, and those that call every function. The report stands in
// coverage/mutation/. Ends with an error where less than --least 92 percent were noticed. With --minutes 4 a run that
// is not done by then ends without a verdict; so does one without the commit to compare with.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { survivorsIn, told } from './report.mjs';
import { testsOf } from './testsOf.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
process.chdir(root);

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    changed: { type: 'string' },
    share: { type: 'string', default: '1' },
    seed: { type: 'string', default: '4406' },
    survivors: { type: 'boolean', default: false },
    concurrency: { type: 'string', default: '1' },
    least: { type: 'string', default: '92' },
    minutes: { type: 'string', default: '600' },
    tests: { type: 'string', default: '' },
  },
});

/** The sources of a folder of src that decide something, or the one file. */
function filesOf(name) {
  if (/\.ts(:|$)/.test(name)) return [name];
  const listed = execFileSync('git', ['ls-files', `src/${name}`], { encoding: 'utf8' }).split('\n');
  return listed.filter((file) => file.endsWith('.ts') && !file.endsWith('/sources.ts'));
}

function changedFiles(base) {
  const known = spawnSync('git', ['rev-parse', '--verify', '--quiet', `${base}^{commit}`]).status === 0;
  if (!known) return [];
  const listed = execFileSync('git', ['diff', '--name-only', '--diff-filter=d', base, '--', 'src'], {
    encoding: 'utf8',
  });
  return listed.split('\n').filter((file) => /^src\/\w+\/.*\.ts$/.test(file) && !file.startsWith('src/scripts/'));
}

const files = values.changed === undefined ? positionals.flatMap(filesOf) : changedFiles(values.changed);
if (files.length === 0) {
  console.log('mutation: no file of src to change');
  process.exit(values.changed === undefined ? 1 : 0);
}
const folders = [...new Set(files.map((file) => file.split('/')[1]))];
const report = `coverage/mutation/${folders.join('-')}.json`;
const again = values.survivors;
const earlier = again && existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : null;
if (again && earlier === null) throw new Error(`${report} is missing: run without --survivors first`);

const configuration = {
  testRunner: 'in one process',
  plugins: [join(root, 'tests/mutation/runner.mjs'), join(root, 'tests/mutation/sample.mjs')],
  checkers: ['sample'],
  mutate: files,
  coverageAnalysis: 'perTest',
  ignoreStatic: true,
  concurrency: Number(values.concurrency),
  // three times as long as its tests take without it, and a quarter of a minute: then a change is taken not to end
  timeoutFactor: 3,
  timeoutMS: 15_000,
  dryRunTimeoutMinutes: 30,
  ignorePatterns: ['dist', 'docs/site', 'coverage', 'docs/examples/out'],
  tempDirName: `coverage/mutation/sandbox-${process.pid}`,
  reporters: ['json', 'progress-append-only'],
  jsonReporter: { fileName: report.replace('.json', again ? '.again.json' : '.json') },
  allowEmpty: true,
  allowConsoleColors: false,
};
console.log(`mutation: ${files.length} files of ${folders.join(', ')}`);
const began = Date.now();
const ended = spawnSync(
  process.execPath,
  [
    join(dirname(fileURLToPath(import.meta.resolve('@stryker-mutator/core'))), '../../bin/stryker.js'),
    'run',
    'tests/mutation/stryker.config.mjs',
  ],
  {
    stdio: 'inherit',
    timeout: Number(values.minutes) * 60_000,
    env: {
      ...process.env,
      MOTESCALE_STRYKER: JSON.stringify(configuration),
      MOTESCALE_TESTS: testsOf(folders, values.tests).join(','),
      MOTESCALE_SAMPLE: JSON.stringify({
        share: Number(values.share),
        seed: Number(values.seed),
        only: earlier && survivorsIn(earlier),
      }),
      MOTESCALE_LEAST_VOLUME: '1',
    },
  },
);
rmSync(configuration.tempDirName, { recursive: true, force: true });
if (ended.error?.code === 'ETIMEDOUT') {
  console.log(`mutation: not done in ${values.minutes} minutes, no verdict`);
  process.exit(0);
}
if (ended.status !== 0) process.exit(ended.status ?? 1);
const share = told(report, again ? report.replace('.json', '.again.json') : null);
console.log(`${Math.round((Date.now() - began) / 1000)} s`);
process.exit(share * 100 < Number(values.least) ? 1 : 0);
