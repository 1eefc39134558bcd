/**
 * The schemas for people outside TypeScript, as JSON Schema (draft 2020-12): plain data, the same as the files of the
 * package.
 */
import acceptanceConfig from './acceptanceConfig.schema.json' with { type: 'json' };
import acceptanceReading from './acceptanceReading.schema.json' with { type: 'json' };
import classTable from './classTable.schema.json' with { type: 'json' };
import monitorConfig from './monitorConfig.schema.json' with { type: 'json' };
import monitorReading from './monitorReading.schema.json' with { type: 'json' };
import reading from './reading.schema.json' with { type: 'json' };

/** A JSON Schema, as plain data. */
export type JsonSchema = { readonly [keyword: string]: unknown };

/**
 * The shapes of a reading, alone, for a monitor and for a proof, of the configurations of a monitor and of a proof, and
 * of a class table as JSON Schema, draft 2020-12. The package has each as a file, such as
 * `motescale/schemas/reading.schema.json`.
 *
 * They say what each member may be. What the members ask of each other (sizes that ascend, one count for each size, a
 * target that its table can read) JSON Schema cannot say: the parse functions check it too.
 *
 * @example
 * ```ts
 * import { jsonSchemas } from 'motescale/schema';
 * jsonSchemas.monitorReading.required; // => ['time']
 * ```
 */
export const jsonSchemas: {
  readonly reading: JsonSchema;
  readonly monitorReading: JsonSchema;
  readonly monitorConfig: JsonSchema;
  readonly acceptanceReading: JsonSchema;
  readonly acceptanceConfig: JsonSchema;
  readonly classTable: JsonSchema;
} = { reading, monitorReading, monitorConfig, acceptanceReading, acceptanceConfig, classTable };
