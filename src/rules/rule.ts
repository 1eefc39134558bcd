/**
 * A rule says what a value may be, as plain data. The checks read it, the schemas and JSON Schema files are made from
 * it, and so do the docs take their bounds: a bound, a word or the name of a member stands in one rule and nowhere
 * else.
 *
 * Rules are literals, so that a bundle holds only those it uses.
 */

/** What may be said of any value. */
interface Common {
  /** What would be right, in words: `a temperature in °C`. Bounds are written after it by themselves. */
  readonly expected?: string;
  /** A member that may be left out, or be undefined. */
  readonly optional?: true;
  /** May be null. */
  readonly nullable?: true;
}

/** A finite number. `least` and `most` are allowed, `above` and `below` are not. */
export interface NumberRule extends Common {
  readonly kind: 'number';
  readonly least?: number;
  readonly above?: number;
  readonly most?: number;
  readonly below?: number;
  readonly whole?: true;
  /** One of these, where they are few. */
  readonly among?: readonly number[];
}

/** A text, and how many characters it may have; 1 or more where nothing is said. */
export interface TextRule extends Common {
  readonly kind: 'text';
  readonly shortest?: number;
  readonly longest?: number;
}

export interface WordRule extends Common {
  readonly kind: 'word';
  readonly words: readonly string[];
}

interface FlagRule extends Common {
  readonly kind: 'flag';
}

/** A list, each element by one rule; at least one element where nothing is said, and never more than `longest`. */
export interface ListRule extends Common {
  readonly kind: 'list';
  readonly of: Rule;
  readonly shortest?: number;
  readonly longest: number;
}

/** What is right for a member under a name that is not known: another unit, another word. */
export type Hints = Readonly<Record<string, string>>;

/** An object with these members and no other. */
export interface ObjectRule extends Common {
  readonly kind: 'object';
  readonly members: Members;
  readonly hints?: Hints;
}

/** An object of any names, each member by one rule; names of 1 to 64 characters. */
export interface RecordRule extends Common {
  readonly kind: 'record';
  readonly of: Rule;
  readonly longest: number;
  /** Only these names, where they are a closed set. */
  readonly names?: readonly string[];
}

/** One of several forms: which, says `choose`, from the members the value has. `expected` names the forms. */
export interface EitherRule extends Common {
  readonly kind: 'either';
  readonly forms: readonly Rule[];
  readonly choose: (value: unknown) => Rule | null;
  readonly expected: string;
}

export type Members = { readonly [name: string]: Rule };

export type Rule = NumberRule | TextRule | WordRule | FlagRule | ListRule | ObjectRule | RecordRule | EitherRule;
