/** The JSON Schema files are what the shapes say, and jsonSchemas is what the files say. `npm test -- -u` writes the files anew. */
import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { acceptanceConfigShape } from '../../../src/schema/acceptanceConfigShape.ts';
import { classTableShape } from '../../../src/schema/classTableShape.ts';
import { jsonSchemas } from '../../../src/schema/index.ts';
import { monitorConfigShape } from '../../../src/schema/monitorConfigShape.ts';
import { acceptanceReadingShape, monitorReadingShape, readingShape } from '../../../src/schema/readingShape.ts';

const shapes: readonly [keyof typeof jsonSchemas, string, z.ZodMiniType][] = [
  ['reading', 'Reading of a particle counter', readingShape()],
  ['monitorReading', 'Reading for a monitor', monitorReadingShape()],
  ['monitorConfig', 'Configuration of a monitor', monitorConfigShape()],
  ['acceptanceReading', 'Reading for the proof of a flush or a fill', acceptanceReadingShape()],
  ['acceptanceConfig', 'What has to be shown of a flush or a fill', acceptanceConfigShape()],
  ['classTable', 'Class table', classTableShape()],
];

/** The text of a shape becomes its description. */
function jsonSchemaOf(title: string, shape: z.ZodMiniType): object {
  const { $schema, ...rest } = z.toJSONSchema(shape, {
    io: 'input',
    override: ({ zodSchema, jsonSchema }) => {
      const { error } = zodSchema._zod.def as { error?: (issue: object) => string };
      const text = error?.({});
      if (text !== undefined && text !== '') jsonSchema.description = text;
    },
  });
  return { $schema, title, ...rest };
}

describe.each(shapes)('%s', (name, title, shape) => {
  test('the file is made from the shape', async () => {
    const made = `${JSON.stringify(jsonSchemaOf(title, shape), null, 2)}\n`;
    await expect(made).toMatchFileSnapshot(`../../../src/schema/${name}.schema.json`);
  });

  test('is plain data of draft 2020-12', () => {
    const schema = jsonSchemas[name];
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(JSON.parse(JSON.stringify(schema))).toEqual(jsonSchemaOf(title, shape));
  });
});
