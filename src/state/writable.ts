/** What is read-only once it is done, while it is being made. */

/** The same members, each of which can be set. */
export type Writable<T> = { -readonly [Key in keyof T]: T[Key] };
