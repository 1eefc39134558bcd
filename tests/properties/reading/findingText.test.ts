/** Findings in words of another language: each place that a text may have, and what fills it. */
import { expect, test } from 'vitest';
import { englishFindingTexts, type Finding, type FindingTexts, findingText } from '../../../src/reading/index.ts';

const day = 86400000;
const finding: Finding = {
  ...{ code: 'few_particles', quality: 'uncertain', affects: ['waterSaturation', 'counts'] },
  ...{ value: 0.5 * day, limit: 1.25 * day, sizes: [14, 4.5, 6], sizing: 'iso11171' },
};
/** A text may have the places that its English has. */
const placesOf = (text: string) => text.match(/\{\w+\}/g) ?? ([] as string[]);
const codeOf = (text: string) => {
  const all = Object.entries(englishFindingTexts.findings);
  const found = all.find(([, english]) => placesOf(text).every((place) => english.includes(place)));
  expect(found, text).toBeDefined();
  return found?.[0] as Finding['code'];
};
const own = (text: string): FindingTexts => ({
  ...englishFindingTexts,
  decimalSign: ',',
  and: ' et ',
  figures: { ...englishFindingTexts.figures, waterSaturation: 'eau' },
  findings: { ...englishFindingTexts.findings, [codeOf(text)]: text },
});
const written = (text: string, change: object = {}) =>
  findingText({ ...finding, code: codeOf(text), ...change }, own(text));

test.each<[string, string, object]>([
  ['{value} of {limit}', '12,5 of 300', { value: 12.5, limit: 300 }],
  ['{valuePercent} % of {limitPercent} %', '12,5 % of 30 %', { value: 0.125, limit: 0.3 }],
  // as many digits as tell the two apart
  ['{value} of {limit}', '0,95012 of 0,95011', { value: 0.95012, limit: 0.95011 }],
  ['{valuePercent} of {limitPercent}', '95,012 of 95,011', { value: 0.95012, limit: 0.95011 }],
  ['{valueSeconds} of {limitSeconds}', '950,12 of 950,11', { value: 950120, limit: 950110 }],
  ['{valueDays} of {limitDays}', '95,012 of 95,011', { value: 95.012 * day, limit: 95.011 * day }],
  ['{valueDays} of {limitDays} days', '0,5 of 1,25 days', {}],
  ['{valueSeconds} of {limitSeconds} s', '43200 of 108000 s', {}],
  ['{secondsBefore} s', '64800 s', {}],
  ['{figure}', 'eau', {}],
  ['{sizes}', '4,5 µm(c), 6 µm(c) et 14 µm(c)', {}],
  ['{sizes}', '4 µm et 6 µm', { sizes: [6, 4], sizing: 'microscope' }],
  ['{sizes}', '6', { sizes: [6], sizing: undefined }],
  ['{firstSize} to {lastSize}', '14 µm(c) to 6 µm(c)', {}],
  // what a finding lacks leaves its place empty
  ['[{sizes}] [{lastSize}]', '[] []', { sizes: undefined }],
  ['[{firstSize}] [{lastSize}]', '[] []', { sizes: [] }],
])('%s: %s', (text, wanted, change) => {
  expect(written(text, change)).toBe(wanted);
});

test.each(['{values}', '{value', '{firstSize} {secondsBefore}'])(
  'a place that English lacks is refused: %s',
  (text) => {
    const findings = { ...englishFindingTexts.findings, few_particles: text };
    expect(() => findingText(finding, { ...englishFindingTexts, findings })).toThrow('texts.findings.few_particles');
  },
);

test('what is no finding is refused, with the codes there are', () => {
  const refused = (one: object) => () => findingText(one as Finding);
  expect(refused({ ...finding, code: 'few' })).toThrow(/^finding\.code: received 'few', expected one of 'no_flow', /);
  expect(refused({ ...finding, limits: 3 })).toThrow(
    /^finding\.limits: .*'sizing', 'received', 'most', the members of a finding of assess/,
  );
  expect(refused([])).toThrow(/^finding: received an array of 0, expected a finding of assessReading$/);
});
