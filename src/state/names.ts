/** Names that people give, and that stand in states and events. */
import { motescaleError } from '../errors.ts';
import { longestName } from '../rules/bounds.ts';

/** A name that can stand in an event. */
export function requireName(value: unknown, parameter: string): string {
  if (typeof value !== 'string') throw motescaleError('wrong_type', parameter, value, 'a name');
  if (value.length === 0 || value.length > longestName)
    throw motescaleError('out_of_range', parameter, value, `a name of 1 to ${longestName} characters`);
  return value;
}

/** Plain characters take one byte; others at most six, as an escape. */
export function idBytes(id: string): number {
  return id.length + 5 * id.replace(/[ !#-[\]-~]/g, '').length;
}
