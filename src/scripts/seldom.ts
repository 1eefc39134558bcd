/**
 * Which functions may be written into the one place that calls them. Written there, a function takes no heap until it
 * is called, and is made anew at each call: in Duktape twice the time where each reading passes it. So only those of
 * files that are asked when something is prepared, resumed or refused.
 */
const seldom = new RegExp(
  `/(${[
    ...['prepare', 'plan', 'codePlans', 'budget', 'reach', 'requireTable', 'noteUnsound', 'tableRule', 'readable'],
    ...['resume', 'stateRules', 'state', 'repeatsState', 'noLater', 'names', 'textPrint'],
    ...['rules', 'limitsRule', 'ownLimits', 'readingLimits', 'errors', 'words', 'seconds'],
    ...['commands', 'unit', 'aside', 'cumulativeCounts', 'parseCode', 'code', 'formatParts'],
  ].join('|')})\\.ts$`,
);

/** A script in ES5 with a mark for terser before each call of a function that is to stay one. */
export function marked(script: string): string {
  const lines = script.split('\n');
  const kept = new Set<string>();
  let isSeldom = false;
  lines.forEach((line, i) => {
    const [, path] = /^\s*\/\/ (src\/\S+\.ts)$/.exec(line) ?? [];
    if (path !== undefined) isSeldom = seldom.test(path);
    const [, name] = /^\s*function (\w+)\(/.exec(line) ?? [];
    // what only returns is shorter in place, and makes no function there
    if (name !== undefined && !isSeldom && !/^\s*return\b/.test(lines[i + 1] ?? '')) kept.add(name);
  });
  return script.replace(/(function )?(?<![.\w$])([A-Za-z_$][\w$]*)\(/g, (call, declares, name) =>
    declares !== undefined || !kept.has(name) ? call : `/*@__NOINLINE__*/${call}`,
  );
}
