/** Two instruments, or one and a certificate: whether they differ by more than the uncertainties both state. */
import { requireFinite, requireMembers, requireObject, requireUnsigned } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';

/** A result with its expanded uncertainty (k = 2, about 95 %), in the unit of the result. */
export interface ExpandedResult {
  readonly value: number;
  readonly expanded: number;
}

/** A result with its standard uncertainty (k = 1), in the unit of the result. */
export interface StandardResult {
  readonly value: number;
  readonly standard: number;
}

/**
 * E_n of one result against a reference, size by size: the difference over both expanded uncertainties together. From
 * -1 to 1 the results agree within what both state. Beyond, one of the two states too little, or reads wrong; the
 * score does not say which.
 *
 * Score ln N or a continuous scale number and not N where the uncertainty is a share of the count.
 *
 * Range: any finite figures, not both uncertainties 0. Source: ISO 13528:2015 and 2022, E_n score (formula from
 * memory).
 *
 * @param measured the result under test
 * @param reference the certificate, or the laboratory
 * @throws `no_answer` where both uncertainties are 0; `negative`, `unknown_option`, `wrong_type`, `not_a_number`,
 * `infinite`.
 *
 * @example
 * ```ts
 * import { enScore } from 'motescale/codes';
 * enScore({ value: 17.5, expanded: 0.3 }, { value: 17.9, expanded: 0.4 }); // ~> -0.80
 * ```
 */
export function enScore(measured: ExpandedResult, reference: ExpandedResult): number {
  return score(measured, reference, 'expanded');
}

/**
 * Zeta of one result against a reference: the difference over both standard uncertainties together. Up to 2 in
 * magnitude the results agree; from 3 on they do not; between lies a warning (common practice). With k = 2 it is twice
 * E_n. On scale numbers it holds from some 20 particles on at each side; of 0.3 to 2, two counts of one oil are above 3
 * in 6 to 20 % of all pairs from equal volumes, in 14 to 71 % from 1 and 25 mL (docs/sure.md): `countsDiffer` is for
 * those.
 *
 * Range: any finite figures, not both uncertainties 0. Source: ISO 13528:2015 and 2022, zeta score (formula from
 * memory).
 *
 * @param measured the result under test
 * @param reference the certificate, or the laboratory
 * @throws `no_answer` where both uncertainties are 0; `negative`, `unknown_option`, `wrong_type`, `not_a_number`,
 * `infinite`.
 *
 * @example
 * ```ts
 * import { zetaScore } from 'motescale/codes';
 * zetaScore({ value: 18.3, standard: 0.15 }, { value: 17.9, standard: 0.1 }); // ~> 2.22
 * ```
 */
export function zetaScore(measured: StandardResult, reference: StandardResult): number {
  return score(measured, reference, 'standard');
}

function score(measured: object, reference: object, name: 'expanded' | 'standard'): number {
  const [x, u] = requireResult(measured, 'measured', name);
  const [y, v] = requireResult(reference, 'reference', name);
  // taken apart, so that neither square leaves the range of a double
  const large = Math.max(u, v);
  if (large === 0)
    throw motescaleError('no_answer', `measured.${name}`, 0, 'an uncertainty above 0 in one result at least');
  const both = Math.sqrt((u / large) * (u / large) + (v / large) * (v / large));
  const found = (x - y) / large / both;
  if (!isFinite(found)) {
    const expected = 'uncertainties that are not vanishing beside the difference';
    throw motescaleError('no_answer', `measured.${name}`, u, expected);
  }
  return found;
}

function requireResult(result: object, parameter: string, name: 'expanded' | 'standard'): [number, number] {
  requireMembers(requireObject(result, parameter, `a result { value, ${name} }`), parameter, ['value', name]);
  const { value, [name]: uncertainty } = result as Record<string, unknown>;
  return [requireFinite(value, `${parameter}.value`), requireUnsigned(uncertainty, `${parameter}.${name}`)];
}
