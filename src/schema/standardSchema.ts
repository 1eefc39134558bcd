/**
 * The Standard Schema interface, version 1 (standardschema.dev): how form, tool and server libraries ask any schema to
 * check a value. It is restated here, so that no type of the library that does the checking shows in ours.
 */

/**
 * A schema that any library which takes Standard Schema can use. `Input` is what it accepts, `Output` what it gives
 * back.
 */
export interface StandardSchemaV1<Input = unknown, Output = Input> {
  readonly '~standard': StandardSchemaProps<Input, Output>;
}

/** What the interface asks for. Ours answer at once, never by a promise. */
export interface StandardSchemaProps<Input = unknown, Output = Input> {
  readonly version: 1;
  readonly vendor: string;
  /** The value, or the issues; never a promise. */
  readonly validate: (value: unknown) => StandardResult<Output>;
  /** Only for the type checker; never there when the program runs. */
  readonly types?: { readonly input: Input; readonly output: Output } | undefined;
}

/** The value, or the issues. */
export type StandardResult<Output> =
  | { readonly value: Output; readonly issues?: undefined }
  | { readonly issues: readonly StandardIssue[] };

/** One thing wrong with the value, and where. */
export interface StandardIssue {
  readonly message: string;
  readonly path: readonly (string | number)[];
}
