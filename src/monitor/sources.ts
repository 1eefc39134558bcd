/** Where the figures and formulas of the monitor come from. What it asks of other entries has its source there. */
import { fingerprintSource } from '../judging/fingerprint.ts';
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<Record<'fingerprint', Source>> = { fingerprint: fingerprintSource };
