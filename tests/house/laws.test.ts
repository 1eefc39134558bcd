/** The law of same bits on every engine, and of quiet modules: what no source below schema/ and exact/ may use. */
import { readFileSync } from 'node:fs';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { filesBelow } from '../files.ts';

const sources = filesBelow('src', '.ts').filter((file) => !/src\/(schema|exact|scripts)\/|tsup\.config/.test(file));

/** Members whose result differs between engines, or that small engines lack although ES5 has the name. */
const bannedMembers = ['toFixed', 'toPrecision', 'toExponential', 'toLocaleString', 'localeCompare'];
const allowedMath = ['sqrt', 'floor', 'ceil', 'abs', 'min', 'max', 'PI'];
/** Made on first use and kept, whatever comes in later. */
const madeOnce = ['src/codes/scaleNumbers.ts kernel'];
const bannedNames = ['Intl', 'Date', 'eval', 'Function'];

function faultsOf(file: string): string[] {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.ES2022, true);
  const faults: string[] = [];
  const fault = (node: ts.Node, what: string) => {
    faults.push(`${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${what}`);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isPropertyAccessExpression(node)) {
      const member = node.name.text;
      if (bannedMembers.includes(member)) fault(node, `.${member}`);
      if (ts.isIdentifier(node.expression) && node.expression.text === 'Math' && !allowedMath.includes(member)) {
        fault(node, `Math.${member}`);
      }
    }
    if (ts.isIdentifier(node) && bannedNames.includes(node.text) && !ts.isPropertyAccessExpression(node.parent)) {
      fault(node, node.text);
    }
    if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.AsteriskAsteriskToken)
      fault(node, '**');
    if (ts.isRegularExpressionLiteral(node) && /[uyvsd]\w*$/.test(node.text.slice(node.text.lastIndexOf('/')))) {
      fault(node, `the flags of ${node.text}`);
    }
    if (ts.isNumericLiteral(node)) {
      const digits = node.getText().replace(/_/g, '').replace(/e.*$/i, '').replace('.', '').replace(/^0+/, '');
      if (digits.replace(/0+$/, '').length > 16) fault(node, `a literal of ${digits.length} digits`);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  for (const statement of source.statements) {
    topLevelCalls(statement, fault);
    if (ts.isVariableStatement(statement) && !(statement.declarationList.flags & ts.NodeFlags.Const))
      for (const { name } of statement.declarationList.declarations)
        if (!madeOnce.includes(`${file} ${name.getText()}`)) fault(statement, 'a variable of the module');
  }
  return faults;
}

/** Calls that run when the module is loaded. */
function topLevelCalls(node: ts.Node, fault: (node: ts.Node, what: string) => void): void {
  if (ts.isFunctionLike(node) || ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return;
  if ((ts.isCallExpression(node) || ts.isNewExpression(node)) && !isMarkedPure(node))
    fault(node, 'a call at the top level without a mark of purity');
  ts.forEachChild(node, (child) => topLevelCalls(child, fault));
}

/** A bundler drops a call so marked where nobody uses its result. */
function isMarkedPure(node: ts.Node): boolean {
  const before = node.getFullText().slice(0, node.getLeadingTriviaWidth());
  return /\/\* @__PURE__ \*\/\s*$/.test(before);
}

describe('laws of the sources below schema/ and exact/', () => {
  test.each(sources)('%s', (file) => {
    expect(faultsOf(file)).toEqual([]);
  });
});
