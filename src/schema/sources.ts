/** Where the figures and formulas of the schemas come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<Record<'jsonSchema' | 'standardSchema', Source>> = {
  jsonSchema: {
    document: 'JSON Schema',
    edition: 'draft 2020-12',
    place: 'core and validation vocabularies',
    standing: 'from memory',
  },
  standardSchema: {
    document: 'Standard Schema',
    edition: 'version 1',
    place: 'the property `~standard`: version, vendor, validate, types',
    standing: 'from memory',
  },
};
