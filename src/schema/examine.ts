/**
 * A value from outside, held against its shape and against the rules between its members: everything wrong with it at once.
 */
import * as z from 'zod/mini';
import type { Examined, InputProblem } from './inputError.ts';
import { problemsOf } from './problems.ts';
import type { ShapeOf } from './shapes.ts';

/**
 * Examines a value. The rules see it as it came, of whatever shape; they keep to what they understand of it. `above` is where the value
 * stands in what was handed in.
 */
export function examine<T>(
  root: string,
  shape: ShapeOf<T>,
  value: unknown,
  rules: (value: unknown) => readonly InputProblem[],
  above: InputProblem['path'] = [],
): Examined<T> {
  const result = z.safeParse(shape, value);
  const problems = result.success ? [] : problemsOf(root, above, result.error.issues, value);
  for (const problem of withoutTold(rules(value), problems)) problems.push(problem);
  if (!result.success || problems.length > 0) return { problems };
  return { value: withoutUndefined(result.data), problems: null };
}

/** What the rules say that the shape has not said already: at the same place, within it, or (lengths apart, of which no shape tells) around it. */
function withoutTold(problems: readonly InputProblem[], told: readonly InputProblem[]): InputProblem[] {
  const places = new Set(told.map(({ path }) => JSON.stringify(path)));
  const around = new Set(told.flatMap(({ path }) => placesAround(path)));
  return problems.filter(({ path, code }) => {
    if (code !== 'length_mismatch' && around.has(JSON.stringify(path))) return false;
    return !placesAround(path).some((place) => places.has(place));
  });
}

/** A place and all that it lies in. */
function placesAround(path: InputProblem['path']): string[] {
  return [...path, null].map((_step, i) => JSON.stringify(path.slice(0, i)));
}

/** A copy without the members that are `undefined`: they count as left out, and JSON has none. */
export function withoutUndefined<T>(data: T): T {
  if (Array.isArray(data)) return data.map(withoutUndefined) as T;
  if (typeof data !== 'object' || data === null) return data;
  const kept = Object.entries(data).filter(([, member]) => member !== undefined);
  return Object.fromEntries(kept.map(([name, member]) => [name, withoutUndefined(member)])) as T;
}
