/**
 * The pieces that shapes are made of. Each carries, in one text, what it expects: the text of its error and its description in JSON Schema.
 *
 * From zod/mini, since that makes its checks without `new Function`, and so runs under a strict content-security policy.
 */
import * as z from 'zod/mini';

/** What a shape gives, or a type of the library, with nothing left to tell them apart but the data: all readonly, nothing `| undefined`. */
export type Data<T> = T extends readonly (infer E)[]
  ? readonly Data<E>[]
  : T extends object
    ? { readonly [K in keyof T]: Data<Exclude<T[K], undefined>> }
    : T;

/** Whether two types are the very same. */
export type Same<A, B> = (<X>() => X extends A ? 1 : 2) extends <X>() => X extends B ? 1 : 2 ? true : false;

/** A shape, known only by what it gives. */
export type ShapeOf<T> = z.ZodMiniType<T>;

/** Passes a shape on as one of `T`; compiles only where what it gives is `T` to the last member. */
export function shapeOf<T>(): <S extends z.ZodMiniType>(
  shape: Same<Data<z.output<S>>, Data<T>> extends true ? S : never,
) => ShapeOf<T> {
  return (shape) => shape as unknown as ShapeOf<T>;
}

/** Limits of a number: `from` and `to` are allowed, `above` is not. */
export interface NumberLimits {
  readonly from?: number;
  readonly above?: number;
  readonly to?: number;
  readonly whole?: boolean;
}

/** A finite number within limits. */
export function number(expected: string, limits: NumberLimits = {}): z.ZodMiniNumber<number> {
  const { from, above, to, whole } = limits;
  let shape: z.ZodMiniNumber<number> = whole === true ? z.int(expected) : z.number(expected);
  if (from !== undefined) shape = shape.check(z.gte(from, expected));
  if (above !== undefined) shape = shape.check(z.gt(above, expected));
  if (to !== undefined) shape = shape.check(z.lte(to, expected));
  // as requirePositive and requireNonNegative have it
  if (above === 0) shape = shape.check(z.gte(1e-60, expected));
  if ((above ?? from ?? -1) >= 0 && to === undefined) shape = shape.check(z.lte(1e60, expected));
  return shape;
}

/** A text of at least one character. */
export function text(expected: string, longest?: number): z.ZodMiniString<string> {
  const shape = z.string(expected).check(z.minLength(1, expected));
  return longest === undefined ? shape : shape.check(z.maxLength(longest, expected));
}

/** One of a few words. */
export function oneOf<const Words extends readonly string[]>(
  words: Words,
): z.ZodMiniEnum<{ [Word in Words[number]]: Word }> {
  return z.enum(words, `one of '${words.join("', '")}'`) as never;
}

/** An array with at least one element. */
export function list<Element extends z.ZodMiniType>(expected: string, element: Element): z.ZodMiniArray<Element> {
  return z.array(element, expected).check(z.minLength(1, expected));
}

/** An object with these members and no other: a misspelt name would pass for a member left out. */
export function object<const Members extends z.core.$ZodLooseShape>(
  expected: string,
  members: Members,
): z.ZodMiniObject<Members, z.core.$strict> {
  const known = `one of the members ${Object.keys(members).join(', ')}`;
  const error = (issue: { readonly code?: string }) => (issue.code === 'unrecognized_keys' ? known : expected);
  return z.strictObject(members, { error });
}
