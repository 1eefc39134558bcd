/**
 * Which functions may be written into the one place that calls them. Written there, a function takes no heap until it
 * is called, and is made anew at each call: in Duktape twice the time where each reading passes it. So only those of
 * files that are asked when something is prepared, resumed or refused; and the frame of a step with what assesses, for
 * whose 24 kB of heap a reading takes a fifth longer: a gateway has time between readings, and no more than its heap.
 */
import ts from 'typescript';

const seldom = new RegExp(
  `/(${[
    ...['prepare', 'plan', 'codePlans', 'budget', 'reach', 'requireTable', 'noteUnsound', 'tableRule', 'readable'],
    ...['resume', 'stateRules', 'state', 'repeatsState', 'noLater', 'names', 'textPrint'],
    ...['rules', 'limitsRule', 'ownLimits', 'readingLimits', 'errors', 'words', 'seconds'],
    ...['commands', 'unit', 'aside', 'behind', 'summary', 'momentClock', 'clock', 'check', 'require', 'checks'],
    ...['cumulativeCounts', 'convertSizing', 'parseCode', 'code', 'formatParts', 'meets'],
    ...['take', 'gate', 'assessReading', 'repeats', 'quality', 'targets', 'alarm', 'signal', 'step', 'passing'],
    ...['arrivals', 'liveSizes', 'tableIds', 'level', 'empty', 'atRest', 'distribution', 'course', 'instrument'],
    ...['figures', 'codePlan', 'beyond', 'particles', 'codeDoubts', 'implausible', 'codeBands', 'tail', 'steady'],
    ...['water', 'codeVerdict', 'targetOutcome', 'findAll', 'codeRise', 'same1'],
    ...['firstInterval', 'usual', 'moment', 'silence', 'memory', 'findings', 'fewest', 'fewCounted'],
  ].join('|')})\\.ts$`,
);

/** A script in ES5 with a mark for terser before each call of a function that is to stay one. */
export function marked(script: string): string {
  const source = ts.createSourceFile('script.js', script, ts.ScriptTarget.ES5);
  const files = [...script.matchAll(/^\s*\/\/ (src\/\S+\.ts)$/gm)].map(({ index, 1: path = '' }) => ({ index, path }));
  const kept = new Set<string>();
  // in the order of the text, as they are visited
  const calls: { readonly name: string; readonly start: number }[] = [];
  const visit = (node: ts.Node): void => {
    const start = node.getStart(source);
    if (ts.isFunctionDeclaration(node) && node.name !== undefined && !isShort(node)) {
      const file = files.filter(({ index }) => index < start).at(-1);
      if (!seldom.test(file?.path ?? '')) kept.add(node.name.text);
    }
    if (ts.isCallExpression(node) && ts.isIdentifier(node.expression))
      calls.push({ name: node.expression.text, start });
    ts.forEachChild(node, visit);
  };
  visit(source);
  let text = '';
  let end = 0;
  for (const { name, start } of calls) {
    if (!kept.has(name)) continue;
    text += `${script.slice(end, start)}/*@__NOINLINE__*/`;
    end = start;
  }
  return text + script.slice(end);
}

/** What only returns is shorter in place, and makes no function there. */
function isShort({ body }: ts.FunctionDeclaration): boolean {
  return body?.statements[0] !== undefined && ts.isReturnStatement(body.statements[0]);
}
