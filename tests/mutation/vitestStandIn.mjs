/**
 * As much of vitest as the tests use, so that a test file can be loaded anew and run within a few milliseconds. The
 * matchers are vitest's own.
 */
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

const fromVitest = createRequire(createRequire(import.meta.url).resolve('vitest/package.json'));
const load = (name, from = fromVitest) => import(pathToFileURL(from.resolve(name)).href);
const matchers = await load('@vitest/expect');
const chai = await load('chai', createRequire(fromVitest.resolve('@vitest/expect')));

chai.use(matchers.JestExtend);
chai.use(matchers.JestChaiExpect);
chai.use(matchers.JestAsymmetricMatchers);

/** What vitest takes from its test for a message; there is none here. */
const expect = Object.assign((value, message) => chai.expect(value, message), chai.expect);
Object.assign(expect, globalThis[matchers.ASYMMETRIC_MATCHERS_OBJECT], {
  unreachable: (message) => chai.assert.fail(`expected ${message ?? ''} not to be reached`),
  fail: (message) => chai.assert.fail(message ?? 'fail'),
});
globalThis[matchers.GLOBAL_EXPECT] = expect;
expect.extend(expect, matchers.customMatchers);
matchers.setState({ assertionCalls: 0 }, expect);

/** A fresh face of vitest, and the tests that are declared through it. */
export function collector() {
  const tests = [];
  let suite = { names: [], before: [] };

  const test = (name, first, second) => {
    const run = typeof first === 'function' ? first : second;
    tests.push({ name: [...suite.names, name].join(' '), run, suite });
  };
  const describe = (name, declare) => {
    const outer = suite;
    suite = { names: [...outer.names, name], before: [], outer };
    declare();
    suite = outer;
  };
  const each = (declare) => (table) => (name, first, second) => {
    const body = typeof first === 'function' ? first : second;
    table.forEach((row, i) => {
      declare(`${name} [${i}]`, () => body(...(Array.isArray(row) ? row : [row])));
    });
  };
  const choices = (declare) => ({
    each: each(declare),
    runIf: (is) => (is ? declare : () => undefined),
    skipIf: (is) => (is ? () => undefined : declare),
    skip: () => undefined,
  });
  Object.assign(test, choices(test));
  Object.assign(describe, choices(describe));
  const face = {
    test,
    it: test,
    describe,
    expect,
    beforeAll: (run) => {
      suite.before.push(run);
      suite.hooked = true;
    },
    afterAll: () => undefined,
  };
  return { face, tests };
}

/** The hooks that a suite still has to run before one of its tests, outermost first. */
export async function prepare(suite) {
  if (suite.outer !== undefined) await prepare(suite.outer);
  for (const run of suite.before.splice(0)) await run();
}
