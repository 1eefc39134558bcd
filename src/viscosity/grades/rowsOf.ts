/** The rows of a printed table of grades that a name stands for. */
import { type ErrorCode, motescaleError } from '../../errors.ts';

/** One row or more, copies that may be written into; or an error that lists the grades. */
export function rowsOf<Row extends { readonly grade: string | number }>(
  table: readonly Row[],
  grade: unknown,
  standard: string,
  code: ErrorCode = 'unknown_option',
  parameter = 'grade',
): [Row, ...Row[]] {
  const rows = table.filter((row) => row.grade === grade).map((row) => JSON.parse(JSON.stringify(row)) as Row);
  if (rows.length > 0) return rows as [Row, ...Row[]];
  const names = table.map((row) => row.grade).join(', ');
  throw motescaleError(code, parameter, grade, `one of ${names} (${standard})`);
}
