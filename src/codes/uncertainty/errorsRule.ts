/** What `MeasurementErrors` may be, for configurations. */
import type { Members, ObjectRule } from '../../rules/rule.ts';
import { type MeasurementErrors, mostErrors } from './errors.ts';

export function errorsRule(): ObjectRule {
  const members: { [name: string]: Members[string] } = {};
  for (const name of Object.keys(mostErrors) as (keyof MeasurementErrors)[]) {
    const expected = name === 'slope' ? 'a slope' : 'a share, 0.03 for 3 %';
    members[name] = { kind: 'number', least: 0, most: mostErrors[name], expected, optional: true };
  }
  return { kind: 'object', expected: 'errors such as { volume: 0.02 }', members };
}
