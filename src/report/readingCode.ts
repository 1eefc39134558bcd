/** The code of a reading in a table: the one it brings. */
import type { ClassTable } from '../codes/index.ts';
import { shortTitle } from './classSteps.ts';
import type { ReportReading } from './reportReading.ts';

/**
 * The code that a reading gives for a table, by the name of its standard, with or without one of the editions it was
 * taken from (`ISO 4406:2021`), or by its id; null where it gives none.
 */
export function tableCode({ codes }: Pick<ReportReading, 'codes'>, table: ClassTable): string | null {
  if (codes === undefined) return null;
  const names = Object.keys(codes);
  for (const name of [table.standard, table.id, shortTitle(table)]) {
    if (name !== undefined && names.indexOf(name) >= 0) return codes[name] as string;
  }
  const { standard, source } = table;
  for (const name of names) {
    const [before, edition = ''] = name.split(':');
    const editions = source.edition?.split(', ') ?? [];
    if (before === standard && editions.indexOf(edition) >= 0) return codes[name] as string;
  }
  return null;
}
