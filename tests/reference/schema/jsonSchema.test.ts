/**
 * The JSON Schema files are what the rules say, and jsonSchemas is what the files say. `npm test -- -u` writes the
 * files anew.
 */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { acceptanceReadingRule } from '../../../src/acceptance/readingRule.ts';
import { tableRule } from '../../../src/codes/ownTable/tableRule.ts';
import { readingRule, timedReadingRule } from '../../../src/reading/rules.ts';
import type { Rule } from '../../../src/rules/rule.ts';
import { acceptanceConfigRule, monitorConfigRule } from '../../../src/schema/configuration.ts';
import { counted, shapeOfRule } from '../../../src/schema/fromRule.ts';
import { classTableSchema, jsonSchemas, monitorReadingSchema } from '../../../src/schema/index.ts';

const rules: readonly [keyof typeof jsonSchemas, string, Rule][] = [
  ['reading', 'Reading of a particle counter', readingRule],
  ['monitorReading', 'Reading for a monitor', timedReadingRule],
  ['monitorConfig', 'Configuration of a monitor', monitorConfigRule()],
  ['acceptanceReading', 'Reading for the proof of a flush or a fill', acceptanceReadingRule],
  ['acceptanceConfig', 'What has to be shown of a flush or a fill', acceptanceConfigRule()],
  ['classTable', 'Class table', tableRule],
];

/** The text of a shape becomes its description. */
function jsonSchemaOf(title: string, shape: z.ZodMiniType): object {
  const { $schema, ...rest } = z.toJSONSchema(shape, {
    io: 'input',
    metadata: counted,
    override: ({ zodSchema, jsonSchema }) => {
      const { error } = zodSchema._zod.def as { error?: (issue: object) => string };
      const text = error?.({});
      if (text !== undefined && text !== '') jsonSchema.description = text;
      // what a form makes a field of whole numbers of
      if (jsonSchema.multipleOf === 1) jsonSchema.type = 'integer';
      if (jsonSchema.multipleOf === 1) delete jsonSchema.multipleOf;
    },
  });
  return { $schema, title, ...rest };
}

describe.each(rules)('%s', (name, title, rule) => {
  const shape = shapeOfRule(rule);

  test('the file is made from the rule', async () => {
    const made = `${JSON.stringify(jsonSchemaOf(title, shape), null, 2)}\n`;
    await expect(made).toMatchFileSnapshot(`../../../src/schema/${name}.schema.json`);
  });

  test('is plain data of draft 2020-12', () => {
    const schema = jsonSchemas[name];
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(JSON.parse(JSON.stringify(schema))).toEqual(jsonSchemaOf(title, shape));
  });
});

test('whole numbers are integers, to forms and to validators', () => {
  type Form = { properties: { onDelayMs: object } };
  const { alarms } = jsonSchemas.monitorConfig.properties as { alarms: { items: { anyOf: [Form] } } };
  const { onDelayMs } = alarms.items.anyOf[0].properties;
  expect(onDelayMs).toEqual({
    type: 'integer',
    minimum: 0,
    maximum: 8640000000000000,
    description: 'whole milliseconds from 0 to 8640000000000000',
  });
  const accepts = new Ajv2020().compile(jsonSchemas.monitorReading);
  expect([1795593600000, 1795593600000.5].map((time) => accepts({ time }))).toEqual([true, false]);
});

describe('what docs/schema.md says JSON Schema and the parse functions differ in', () => {
  const accepts = new Ajv2020().compile(jsonSchemas.monitorReading);
  const time = 1795593600000;

  test.each<[string, object, boolean]>([
    ['counts without counts per mL', { time, counts: { sizes: [4], counted: [18900], volumeMl: 10 } }, true],
    ['digits as text', { time, celsius: '41.5' }, true],
    ['digits as text by name', { time, others: { litres: '380' } }, true],
    ['a time as text', { time: '2026-11-25T08:00:00Z' }, true],
    ['null', { time, celsius: null }, true],
    ['seconds', { time: time / 1000 }, false],
    ['a clock that began at 1970', { time: 5000 }, false],
    ['a name that is lost in copying', { time, others: JSON.parse('{"__proto__":5}') }, false],
  ])('%s', (_what, reading, parsed) => {
    expect(!('issues' in monitorReadingSchema['~standard'].validate(reading))).toBe(parsed);
    expect(accepts(reading)).toBe(!parsed);
  });

  test.each(['B/C', ' B', 'B ', '>B'])('a class named %j', (name) => {
    const columns = [{ label: '6', from: { iso11171: 6 } }];
    const own = { id: 'own', title: 'Own', counting: 'cumulative', perVolumeMl: 1, columns, limits: [[1], [2]] };
    const table = { ...own, classes: ['A', name] };
    expect('issues' in classTableSchema['~standard'].validate(table)).toBe(true);
    expect(new Ajv2020().compile(jsonSchemas.classTable)(table)).toBe(true);
  });
});
