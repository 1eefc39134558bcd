/**
 * Lowers a bundle to ES5: TypeScript does it, with what comes out shorter than its own way, for scripts that are to be
 * small.
 */
import ts from 'typescript';

/** What is lowered calls these, shorter than TypeScript's own: what is spread is a plain object or an array. */
export const helpers = `
var __assign = Object.assign || function (target) {
  for (var i = 1; i < arguments.length; i += 1) {
    var source = arguments[i];
    for (var name in source) if (Object.prototype.hasOwnProperty.call(source, name)) target[name] = source[name];
  }
  return target;
};
function __rest(source, names) {
  var rest = __assign({}, source);
  for (var i = 0; i < names.length; i += 1) delete rest[names[i]];
  return rest;
}
function __spreadArray(to, from) {
  return to.concat(from);
}
`;

/**
 * `(t = a.b) != null ? t : c` asks for `a.b` twice instead, since no source has getters. A template becomes a sum of
 * texts, a list with others spread in it a call of their own `concat`, `[a, b] = [c, d]` of new names two of them, and
 * a loop over a list that keeps its name one over its places. No part of a template is a Symbol, and nothing but arrays
 * is spread in lists or looped over.
 */
const shorter: ts.TransformerFactory<ts.SourceFile> = (context) => (source) => {
  const { factory } = context;
  const moved = assigned(source);
  const visit = (node: ts.Node): ts.Node => {
    const inner = ts.visitEachChild(node, visit, context);
    if (ts.isTemplateExpression(inner)) return added(inner, factory);
    if (ts.isConditionalExpression(inner)) return asked(inner, context);
    if (ts.isForOfStatement(inner)) return looped(inner, moved, factory);
    if (ts.isVariableDeclarationList(inner)) return apart(inner, factory);
    return ts.isArrayLiteralExpression(inner) && inner.elements.some(ts.isSpreadElement)
      ? joined(inner, factory)
      : inner;
  };
  return ts.visitEachChild(source, visit, context);
};

/** Every name that something is assigned to after it was declared, anywhere. */
function assigned(source: ts.SourceFile): ReadonlySet<string> {
  const names = new Set<string>();
  const note = (node: ts.Node): void => {
    if (ts.isIdentifier(node)) names.add(node.text);
    ts.forEachChild(node, note);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isBinaryExpression(node) && isAssignment(node.operatorToken.kind)) note(node.left);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return names;
}

function isAssignment(kind: ts.SyntaxKind): boolean {
  return kind >= ts.SyntaxKind.FirstAssignment && kind <= ts.SyntaxKind.LastAssignment;
}

function looped(loop: ts.ForOfStatement, moved: ReadonlySet<string>, factory: ts.NodeFactory): ts.Statement {
  const { initializer, expression: list, statement } = loop;
  if (!ts.isIdentifier(list) || moved.has(list.text) || !ts.isVariableDeclarationList(initializer)) return loop;
  const [one] = initializer.declarations;
  const place = factory.createLoopVariable();
  const declared = (name: ts.BindingName, value: ts.Expression, flags: ts.NodeFlags) =>
    factory.createVariableDeclarationList(
      [factory.createVariableDeclaration(name, undefined, undefined, value)],
      flags,
    );
  const member = factory.createElementAccessExpression(list, place);
  const length = factory.createPropertyAccessExpression(list, 'length');
  return factory.createForStatement(
    declared(place, factory.createNumericLiteral(0), ts.NodeFlags.Let),
    factory.createLessThan(place, length),
    factory.createPostfixIncrement(place),
    factory.createBlock([
      factory.createVariableStatement(
        [],
        declared((one as ts.VariableDeclaration).name, member, initializer.flags & ts.NodeFlags.BlockScoped),
      ),
      ...(ts.isBlock(statement) ? statement.statements : [statement]),
    ]),
  );
}

function apart(list: ts.VariableDeclarationList, factory: ts.NodeFactory): ts.VariableDeclarationList {
  const declarations = list.declarations.flatMap((one) => {
    const { name, initializer } = one;
    if (!ts.isArrayBindingPattern(name) || initializer === undefined || !ts.isArrayLiteralExpression(initializer))
      return [one];
    const values = initializer.elements;
    if (values.length !== name.elements.length) return [one];
    const pairs = name.elements.map((element, i) =>
      ts.isBindingElement(element) && element.initializer === undefined && !ts.isSpreadElement(values[i] as ts.Node)
        ? factory.createVariableDeclaration(element.name, undefined, undefined, values[i])
        : one,
    );
    return pairs.indexOf(one) < 0 ? pairs : [one];
  });
  return factory.updateVariableDeclarationList(list, declarations);
}

function asked(choice: ts.ConditionalExpression, context: ts.TransformationContext): ts.Node {
  const { condition } = choice;
  if (!ts.isBinaryExpression(condition) || condition.right.kind !== ts.SyntaxKind.NullKeyword) return choice;
  if (!ts.isParenthesizedExpression(condition.left)) return choice;
  const { expression: kept } = condition.left;
  if (!ts.isBinaryExpression(kept) || !ts.isIdentifier(kept.left) || !isPlain(kept.right)) return choice;
  const { left: name, right: path } = kept;
  const visit = (node: ts.Node): ts.Node => {
    if (node === condition.left || (ts.isIdentifier(node) && node.text === name.text)) return path;
    return ts.visitEachChild(node, visit, context);
  };
  return ts.visitEachChild(choice, visit, context);
}

/** A name, or a member of one. */
function isPlain(node: ts.Expression): boolean {
  return ts.isIdentifier(node) || (ts.isPropertyAccessExpression(node) && isPlain(node.expression));
}

function added({ head, templateSpans }: ts.TemplateExpression, factory: ts.NodeFactory): ts.Expression {
  let sum: ts.Expression = factory.createStringLiteral(head.text);
  for (const { expression, literal } of templateSpans) {
    sum = factory.createAdd(sum, factory.createParenthesizedExpression(expression));
    if (literal.text !== '') sum = factory.createAdd(sum, factory.createStringLiteral(literal.text));
  }
  return factory.createParenthesizedExpression(sum);
}

function joined({ elements }: ts.ArrayLiteralExpression, factory: ts.NodeFactory): ts.Expression {
  const lists: ts.Expression[] = [];
  let plain: ts.Expression[] = [];
  const close = () => {
    if (plain.length > 0) lists.push(factory.createArrayLiteralExpression(plain));
    plain = [];
  };
  for (const element of elements) {
    if (ts.isSpreadElement(element)) {
      close();
      lists.push(element.expression);
    } else plain.push(element);
  }
  close();
  const [first, ...others] = lists as [ts.Expression, ...ts.Expression[]];
  return factory.createCallExpression(factory.createPropertyAccessExpression(first, 'concat'), [], others);
}

/** `__assign(__assign({}, a), b)` is `__assign({}, a, b)`. */
const flat: ts.TransformerFactory<ts.SourceFile> = (context) => (source) => {
  const visit = (node: ts.Node): ts.Node => {
    const inner = ts.visitEachChild(node, visit, context);
    if (!isAssign(inner)) return inner;
    const [target, ...others] = inner.arguments;
    if (target === undefined || !isAssign(target)) return inner;
    return context.factory.updateCallExpression(inner, inner.expression, [], [...target.arguments, ...others]);
  };
  return ts.visitEachChild(source, visit, context);
};

function isAssign(node: ts.Node): node is ts.CallExpression {
  return ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === '__assign';
}

/** The bundle in ES5; it calls `helpers`. */
export function inEs5(bundle: string): string {
  const { outputText } = ts.transpileModule(bundle, {
    compilerOptions: {
      target: ts.ScriptTarget.ES5,
      module: ts.ModuleKind.None,
      ignoreDeprecations: '6.0',
      noEmitHelpers: true,
    },
    transformers: { before: [shorter], after: [flat] },
  });
  return outputText.replace('"use strict";\n', '');
}
