/** What each member of a class table may be; what they ask of each other, `tableProblems` says. */
import { sizings } from '../../counts/checkCounts.ts';
import { countedRule, sizeRule } from '../../counts/ranges.ts';
import { longestName } from '../../rules/bounds.ts';
import type { ObjectRule, Rule } from '../../rules/rule.ts';
import { type Source, standings } from '../../source.ts';
import { notations } from '../requireTable.ts';
import type { ClassColumn, OwnTable } from '../types.ts';
import { mostListed } from './readable.ts';

const name = { kind: 'text', longest: longestName } as const;
const title = { kind: 'text', expected: 'a text of at least one character' } as const;
const text = { kind: 'text', shortest: 0 } as const;
const sizes = { kind: 'record', of: sizeRule, names: sizings, longest: sizings.length } as const;

const sourceMembers = {
  document: text,
  edition: text,
  place: text,
  standing: { kind: 'word', words: standings },
} satisfies Readonly<Record<keyof Source, Rule>>;

/** Any object, where what makes a class table of it is asked by itself. */
export const anyTableRule: ObjectRule = { kind: 'object', expected: 'a class table', members: {} };

export const tableRule: ObjectRule = /* @__PURE__ */ makeRule();

/** A function, so that a bundle without `classTable` has none of it. */
function makeRule(): ObjectRule {
  const columnMembers = {
    label: { ...name, expected: 'the label of a column' },
    from: { ...sizes, expected: 'sizes by sizing, such as { iso11171: 6 }' },
    to: { ...sizes, expected: 'upper ends by sizing, such as { iso11171: 14 }', optional: true },
  } satisfies Readonly<Record<keyof ClassColumn, Rule>>;
  const members = {
    id: { ...name, expected: 'the id of a table' },
    standard: { ...title, optional: true },
    title,
    source: {
      kind: 'object',
      expected: 'a source { document, edition, place, standing }',
      members: sourceMembers,
      optional: true,
    },
    counting: { kind: 'word', words: ['cumulative', 'differential'] },
    perVolumeMl: { kind: 'number', among: [1, 100], expected: 'a volume in mL' },
    notation: { kind: 'word', words: notations, optional: true },
    fewCounted: { ...countedRule, optional: true },
    columns: {
      kind: 'list',
      longest: mostListed,
      expected: 'columns',
      of: { kind: 'object', expected: 'a column { label, from }', members: columnMembers },
    },
    classes: {
      kind: 'list',
      longest: mostListed,
      expected: 'classes, from clean to dirty',
      of: { ...name, expected: 'the name of a class' },
    },
    limits: {
      kind: 'list',
      longest: mostListed,
      expected: 'rows, one for each class',
      of: {
        kind: 'list',
        longest: mostListed,
        expected: 'limits, one for each column',
        of: { kind: 'number', least: 0, nullable: true, expected: 'a limit' },
      },
    },
    wording: {
      kind: 'record',
      longest: mostListed,
      expected: 'texts by class and column, such as { "0": { "100-200": "absent" } }',
      of: { kind: 'record', longest: mostListed, expected: 'texts by column', of: text },
      optional: true,
    },
    elsewhere: { ...text, optional: true },
    notes: { kind: 'list', shortest: 0, longest: mostListed, expected: 'texts', of: text, optional: true },
  } satisfies Readonly<Record<keyof OwnTable, Rule>>;
  const expected = 'a class table { id, title, counting, perVolumeMl, columns, classes, limits }';
  return { kind: 'object', expected, members };
}
