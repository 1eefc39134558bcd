/**
 * A rule as a zod shape: it decides and copies at run time, and the JSON Schema files are made from it. Bounds and
 * words stand in the rule.
 *
 * From zod/mini, since that makes its checks without `new Function`, and so runs under a strict content-security
 * policy.
 */
import * as z from 'zod/mini';
import { largestFigure, longestName, smallestFigure } from '../rules/bounds.ts';
import { isUnsigned } from '../rules/check.ts';
import type { ListRule, NumberRule, RecordRule, Rule, TextRule } from '../rules/rule.ts';
import { expectedOf, namesText } from '../rules/words.ts';

/** How many members a record may have, for its JSON Schema: no piece of zod says it. */
export const counted: z.core.$ZodRegistry<{ readonly maxProperties: number }> = /* @__PURE__ */ z.registry();

/** The shape of a rule; what the rule expects becomes its description. */
export function shapeOfRule(rule: Rule): z.ZodMiniType {
  let shape = bareShape(rule);
  if (rule.nullable === true) shape = z.nullable(shape);
  return rule.optional === true ? z.optional(shape) : shape;
}

function bareShape(rule: Rule): z.ZodMiniType {
  switch (rule.kind) {
    case 'number':
      return numberShape(rule);
    case 'text':
      return textShape(rule);
    case 'word':
      return z.enum(rule.words as [string, ...string[]], expectedOf(rule));
    case 'flag':
      return z.boolean(expectedOf(rule));
    case 'list':
      return listShape(rule);
    case 'record':
      return recordShape(rule);
    case 'object': {
      const members: Record<string, z.ZodMiniType> = {};
      for (const [name, member] of Object.entries(rule.members)) members[name] = shapeOfRule(member);
      const known = namesText(rule.members);
      return z.strictObject(members, { error: (issue) => (isUnknown(issue) ? known : expectedOf(rule)) });
    }
    default:
      return z.union(rule.forms.map(shapeOfRule) as [z.ZodMiniType, ...z.ZodMiniType[]], expectedOf(rule));
  }
}

function numberShape(rule: NumberRule): z.ZodMiniType {
  const text = expectedOf(rule);
  if (rule.among !== undefined) return z.literal(rule.among as [number, ...number[]], text);
  let shape: z.ZodMiniNumber<number> = z.number(text);
  if (rule.whole === true) shape = shape.check(z.multipleOf(1, text));
  if (rule.least !== undefined) shape = shape.check(z.gte(rule.least, text));
  if (rule.above !== undefined) shape = shape.check(z.gt(rule.above, text));
  if (rule.most !== undefined) shape = shape.check(z.lte(rule.most, text));
  if (rule.below !== undefined) shape = shape.check(z.lt(rule.below, text));
  if (rule.above === 0) shape = shape.check(z.gte(smallestFigure, text));
  if (isUnsigned(rule) && rule.most === undefined) shape = shape.check(z.lte(largestFigure, text));
  return shape;
}

function textShape(rule: TextRule): z.ZodMiniType {
  const text = expectedOf(rule);
  const shape = z.string(text).check(z.minLength(rule.shortest ?? 1, text));
  return rule.longest === undefined ? shape : shape.check(z.maxLength(rule.longest, text));
}

function listShape(rule: ListRule): z.ZodMiniType {
  const text = expectedOf(rule);
  // the length first: a list that is too long is refused before its elements are looked at
  const shape = z.array(shapeOfRule(rule.of), text).check(z.minLength(rule.shortest ?? 1, text));
  return shape.check(z.maxLength(rule.longest, text));
}

function recordShape(rule: RecordRule): z.ZodMiniType {
  const text = expectedOf(rule);
  const of = shapeOfRule(rule.of);
  if (rule.names !== undefined) {
    const known = `one of '${rule.names.join("', '")}'`;
    const names = z.enum(rule.names as [string, ...string[]]);
    return z.partialRecord(names, of, { error: (issue) => (isUnknown(issue) ? known : text) });
  }
  const name = z.string().check(z.minLength(1), z.maxLength(longestName));
  const shape = z.record(name, of, text).check(z.refine((value) => Object.keys(value).length <= rule.longest, text));
  counted.add(shape, { maxProperties: rule.longest });
  return shape;
}

/** A member of another name; the type of an issue does not say that it can be one. */
function isUnknown(issue: { readonly code?: string }): boolean {
  return issue.code === 'unrecognized_keys';
}
