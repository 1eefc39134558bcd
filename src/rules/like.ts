/**
 * A table of texts from outside: all that the English one has, with its places, or an error that names the text. What
 * it lacked, or had besides, would go out to a person as it stands.
 */
import { hasOwn, isObject, requireMembers } from '../checks.ts';
import { motescaleError } from '../errors.ts';

type Table = { readonly [name: string]: unknown };

/** Where a table stands in the one handed in: written out only for an error. */
interface Place {
  readonly name: string;
  readonly within: Place | null;
}

/**
 * Throws unless each text of the model is there and asks for no place that the model lacks. Tables within have no other
 * members; the table itself may have some, where it is `open`: it may hold the texts of others too. All of it is looked
 * through each time, and a table that passes makes no text.
 */
export function requireLike(given: unknown, model: unknown, parameter: string, open = false): void {
  if (given === model) return;
  requireTable(given, model as Table, { name: parameter, within: null }, open);
  if ('decimalSign' in (model as Table)) requireSigns(given as Table, parameter);
}

function requireTable(given: unknown, model: Table, place: Place, open: boolean): void {
  if (given === model) return;
  if (!isObject(given)) throw motescaleError('wrong_type', written(place), given, 'a table of texts');
  if (!open)
    for (const name of Object.keys(given))
      if (!hasOwn(model, name)) requireMembers(given, written(place), Object.keys(model));
  for (const name of Object.keys(model)) {
    const text = given[name];
    const like = model[name];
    if (typeof like !== 'string') requireTable(text, like as Table, { name, within: place }, false);
    else if (typeof text !== 'string')
      throw motescaleError('wrong_type', written({ name, within: place }), text, 'a text');
    else if (!hasPlacesOf(text, like)) {
      const known = (like.match(/\{[^{}]*\}/g) ?? []).join(' ');
      const expected = known === '' ? 'a text without braces' : `a text with no braces but ${known}`;
      throw motescaleError('unknown_option', written({ name, within: place }), text, expected);
    }
  }
}

function written({ name, within }: Place): string {
  return within === null ? name : `${written(within)}.${name}`;
}

/** What stands in braces is filled in, or not at all: it has to stand so in the model. */
function hasPlacesOf(given: string, model: string): boolean {
  if (given === model) return true;
  for (let from = 0; ; ) {
    const open = given.indexOf('{', from);
    const close = given.indexOf('}', from);
    if (open < 0 && close < 0) return true;
    if (open < 0 || close < open || given.lastIndexOf('{', close) > open) return false;
    if (model.indexOf(given.slice(open, close + 1)) < 0) return false;
    from = close + 1;
  }
}

/** Throws unless a number can be read again that is written with the signs of a language. */
function requireSigns(texts: Table, parameter: string): void {
  const { decimalSign, groupSign } = texts as { readonly decimalSign: string; readonly groupSign?: string };
  const expected = 'a sign between whole and decimal digits, other than the one between thousands';
  if (decimalSign === '' || decimalSign === groupSign || /\d/.test(decimalSign + (groupSign ?? '')))
    throw motescaleError('bad_configuration', `${parameter}.decimalSign`, decimalSign, expected);
}
