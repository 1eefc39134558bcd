/** The texts of findings, which stand with the findings, joined to all others. */
import type { FindingTexts } from '../../reading/index.ts';
import type { Texts } from './types.ts';

/** One table of both. */
export function withFindings(findings: FindingTexts, others: Omit<Texts, keyof FindingTexts>): Texts {
  return { ...findings, ...others };
}
