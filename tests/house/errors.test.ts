/**
 * Every error says which parameter was wrong, what came and what would be right, where it is made;
 * `errorsThrown.test.ts` looks at it when it is thrown.
 */
import { readFileSync } from 'node:fs';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { filesBelow } from '../files.ts';

interface Site {
  readonly place: string;
  readonly inputs: readonly ts.Expression[];
}

/** The places where an error is made. */
function sitesIn(file: string): Site[] {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.ES2022, true);
  const sites: Site[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && node.expression.getText() === 'motescaleError') {
      const { line } = source.getLineAndCharacterOfPosition(node.getStart());
      sites.push({ place: `${file}:${line + 1}`, inputs: [...node.arguments] });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return sites;
}

/** What a text begins with, as far as it is written there; null for a name or a call. */
function written(expression: ts.Expression): string | null {
  if (ts.isStringLiteralLike(expression)) return expression.text;
  if (!ts.isTemplateExpression(expression)) return null;
  return expression.head.text + expression.templateSpans.map(({ literal }) => `{}${literal.text}`).join('');
}

/** `counts.perMl[3]`, `limits.qualities.flow_low`, and the names of standards where those are keys. */
const path = /^[a-z]\w*(\.[^.[\]]+|\[\d+\]|\['[^']*'\])*$/i;

describe('where an error is made', () => {
  const sites = filesBelow('src', '.ts').flatMap(sitesIn);

  test('there are many', () => expect(sites.length).toBeGreaterThan(150));

  test.each(sites)('$place', ({ inputs }) => {
    expect(inputs.length, 'code, parameter, received, expected').toBeGreaterThanOrEqual(4);
    const parameter = written(inputs[1] as ts.Expression);
    // what a template puts in is a path or a number of its own
    if (parameter !== null) expect(parameter.replace(/\[\{\}\]/g, '[0]').replace(/\{\}/g, 'x')).toMatch(path);
    const expected = written(inputs[3] as ts.Expression);
    if (expected !== null) expect(expected.trim()).not.toBe('');
  });
});
