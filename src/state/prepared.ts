/**
 * The mark of a prepared configuration: what `prepareX` has checked and worked out, so that a raw configuration passed
 * by mistake is a clear error.
 */
import { motescaleError } from '../errors.ts';
import { version } from '../version.ts';

/** What lives on, and so is prepared, started and advanced. */
type PreparedKind = 'alarm' | 'monitor' | 'acceptance' | 'flow_control';

/**
 * What every prepared configuration carries. It survives JSON; under another version of the library it is prepared
 * again.
 */
export interface Prepared<Kind extends PreparedKind> {
  readonly prepared: Kind;
  /** Of the library that prepared it. */
  readonly version: string;
}

/** The mark, to be spread into a prepared configuration. */
export function markOf<Kind extends PreparedKind>(kind: Kind): Prepared<Kind> {
  return { prepared: kind, version };
}

/** Throws unless the value was prepared by this version of the library, as what is wanted. */
export function requirePrepared(value: unknown, kind: PreparedKind, by: string): void {
  const given = value as Partial<Prepared<PreparedKind>> | null | undefined;
  if (typeof given === 'object' && given !== null && given.prepared === kind && given.version === version) return;
  const other = typeof given === 'object' && given?.prepared === kind && typeof given.version === 'string';
  const expected = `what ${by} of version ${version} returns: prepare the configuration once, and pass that`;
  throw motescaleError('not_prepared', 'prepared', other ? `prepared by version ${given.version}` : value, expected);
}
