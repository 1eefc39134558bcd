/**
 * A table of texts from outside: all that the English one has, with its places, or an error that names the text. What
 * it lacked, or had besides, would go out to a person as it stands.
 */
import { requireMembers, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';

type Table = { readonly [name: string]: unknown };

/** The tables that passed last, each with its model; whoever writes in a language writes in it again. */
let passed: readonly (readonly [unknown, unknown])[] = [];
const mostPassed = 4;

/**
 * Throws unless each text of the model is there and asks for no place that the model lacks. Tables within have no other
 * members; the table itself may have some, where it is `open`: it may hold the texts of others too. A table that has
 * passed is not looked through again while it is one of the last few.
 */
export function requireLike(given: unknown, model: unknown, parameter: string, open = false): void {
  if (given === model || passed.some(([table, like]) => table === given && like === model)) return;
  requireTable(given, model, parameter, open);
  if ('decimalSign' in (model as Table)) requireSigns(given as Table, parameter);
  passed = [[given, model] as const].concat(passed.slice(0, mostPassed - 1));
}

function requireTable(given: unknown, model: unknown, parameter: string, open: boolean): void {
  if (given === model) return;
  const members = requireObject(given, parameter, 'a table of texts') as Table;
  const names = Object.keys(model as Table);
  if (!open) requireMembers(members, parameter, names);
  for (const name of names) {
    const [text, like, place] = [members[name], (model as Table)[name], `${parameter}.${name}`];
    if (typeof like !== 'string') requireTable(text, like, place, false);
    else if (typeof text !== 'string') throw motescaleError('wrong_type', place, text, 'a text');
    else requirePlaces(text, like, place);
  }
}

/** What stands in braces is filled in, or not at all: it has to stand so in the model. */
function requirePlaces(given: string, model: string, parameter: string): void {
  if (given.indexOf('{') < 0 && given.indexOf('}') < 0) return;
  for (const place of given.match(/\{[^{}]*\}|[{}]/g) as string[])
    if (place.length < 2 || model.indexOf(place) < 0) {
      const known = (model.match(/\{[^{}]*\}/g) ?? []).join(' ');
      const expected = known === '' ? 'a text without braces' : `a text with no braces but ${known}`;
      throw motescaleError('unknown_option', parameter, given, expected);
    }
}

/** Throws unless a number can be read again that is written with the signs of a language. */
function requireSigns(texts: Table, parameter: string): void {
  const { decimalSign, groupSign } = texts as { readonly decimalSign: string; readonly groupSign?: string };
  const expected = 'a sign between whole and decimal digits, other than the one between thousands';
  if (decimalSign === '' || decimalSign === groupSign || /\d/.test(decimalSign + (groupSign ?? '')))
    throw motescaleError('bad_configuration', `${parameter}.decimalSign`, decimalSign, expected);
}
