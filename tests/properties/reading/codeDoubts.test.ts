/** What a code without counts says against itself, found only where the code proves it; and no alarm is silenced. */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { assessReading, findingText, type OwnReadingLimits } from '../../../src/reading/index.ts';

const of = (code: string, limits: OwnReadingLimits = {}, more: object = {}) =>
  assessReading({ codes: { iso4406: code }, ...more }, limits);
const sizing = 'iso11171';

describe('few particles: >= before a number', () => {
  test.each([
    ['>=18/>=16/>=13', [4, 6, 14]],
    ['18/16/>=13', [14]],
    ['18/16/≥13', [14]],
    ['>=18/-/*', [4]],
    // at most 0.01 per mL: 20 particles are in 2 litres
    ['0/0/0', [4, 6, 14]],
    ['-/0/0', [6, 14]],
  ])('%s', (received, sizes) => {
    const { quality, findings, unchecked } = of(received);
    expect(quality).toBe('uncertain');
    expect(findings[0]).toEqual({
      ...{ code: 'few_particles', quality: 'uncertain', affects: ['counts'] },
      ...{ value: 19, limit: 20, sizes, sizing, received },
    });
    expect(unchecked).not.toContain('few_particles');
  });

  test('only at the sizes asked for', () => {
    expect(of('18/16/>=13', { particleSizes: [4, 6] }).findings).toEqual([]);
    expect(of('18/16/>=13', { particleSizes: [14] }).findings).toMatchObject([{ sizes: [14] }]);
  });

  test('it proves fewer than 20, and no fewer', () => {
    expect(of('18/16/>=13', { particles: 21 }).findings).toMatchObject([{ value: 19, limit: 21 }]);
    expect(of('18/16/>=13', { particles: 19 }).findings).toEqual([]);
    expect(of('18/16/>=13', { particles: null }).findings).toEqual([]);
  });

  test('without flow nothing is gained by counting longer', () => {
    expect(of('18/16/>=13', {}, { mlPerMin: 0 }).findings.map(({ code }) => code)).toEqual(['no_flow']);
  });

  test('a class of few particles at a larger size, or the next one at the smallest, does not', () => {
    expect(['1/0/0', '12/8/0', '11/-/0'].map((code) => of(code).quality)).toEqual(['good', 'good', 'good']);
  });

  test('whether the counter that gives zeros has died stands open', () => {
    expect(of('0/0/0').unchecked).toContain('no_particles');
    expect(of('5/4/1').unchecked).toContain('no_particles');
  });

  test('a code without the mark is not known to rest on enough', () => {
    expect(of('18/16/13')).toMatchObject({ quality: 'good', findings: [] });
    expect(of('18/16/13').unchecked).toContain('few_particles');
  });
});

describe('too many to count', () => {
  test('* says so itself, whatever the limit', () => {
    const found = { code: 'above_coincidence_limit', quality: 'uncertain', sizes: [4], sizing, received: '*/18/14' };
    expect(of('*/18/14').findings).toMatchObject([{ ...found, value: 0, limit: 0 }]);
    expect(of('*/18/14', { coincidencePerMl: 24000 }).findings).toMatchObject([
      { ...found, value: 24000, limit: 24000 },
    ]);
    expect(of('*/18/14').quality).toBe('uncertain');
  });

  test.each([
    // class 22 is more than 20,000 and at most 40,000 per mL; of particles of 4 µm there are no fewer than of 6 µm
    ['22/18/14', 20000, [4], 20000],
    ['-/22/14', 20000, [6], 20000],
    ['>28/20/15', 24000, [4], 2500000],
  ])('%s is beyond a limit of %d', (received, coincidencePerMl, sizes, value) => {
    expect(of(received, { coincidencePerMl }).findings).toMatchObject([
      { code: 'above_coincidence_limit', value, limit: coincidencePerMl, sizes, received },
    ]);
  });

  test.each(['22/18/14', '>=22/18/14', '>28/20/15'])('%s proves nothing by itself', (code) => {
    expect(of(code).findings.map((one) => one.code)).not.toContain('above_coincidence_limit');
    expect(of(code).unchecked).toContain('above_coincidence_limit');
  });

  test('nor does a class that may lie below the limit, or one of few particles', () => {
    expect(of('22/18/14', { coincidencePerMl: 20001 }).findings).toEqual([]);
    expect(of('>=22/18/14', { coincidencePerMl: 10000 }).findings.map(({ code }) => code)).toEqual(['few_particles']);
  });
});

describe('nothing known at any size', () => {
  test('is no measurement, whatever table', () => {
    const { quality, findings } = of('-/-/-');
    expect(quality).toBe('bad');
    expect(findings).toEqual([
      {
        ...{ code: 'count_missing', quality: 'bad', affects: ['counts'], value: 3, limit: 0 },
        ...{ sizes: [4, 6, 14], sizing, received: '-/-/-' },
      },
    ]);
    expect(findings.map((one) => findingText(one))).toEqual([
      'No count that can be read came at 4 µm(c), 6 µm(c) and 14 µm(c): see what the instrument sends there.',
    ]);
    const also = (codes: Record<string, string>) => {
      const { quality: worth, findings: all } = assessReading({ codes });
      return [worth, ...all.map((one) => one.code)];
    };
    expect(also({ iso4406: '-/-/-', iso4406Microscope: '-/16/13' })).toEqual(['good']);
    expect(also({ iso4406: '-/-/-', iso4406Microscope: 'n/a' })).toEqual(['bad', 'count_missing', 'code_unreadable']);
    expect(also({ iso4406: '-/-/13' })).toEqual(['good']);
  });

  test('is told by a monitor, and no verdict', () => {
    const config = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }] });
    const step = advanceMonitor(config, startMonitor(config), { time: 1e12, codes: { iso4406: '-/-/-' } });
    expect(step.verdict?.inTarget).toBeNull();
    expect(step.events).toMatchObject([{ event: 'quality_bad', figure: 'counts', findings: ['count_missing'] }]);
  });
});

describe('flat by its own bands', () => {
  test.each([
    // at most 2500 of 4 µm, more than 1300 of 14 µm: log10(2500 / 1300) / log10(14 / 4)
    ['18/18/18', [4, 14], 0.522],
    ['18/17/17', [4, 14], 1.0876],
    ['-/18/18', [6, 14], 0.7718],
    // more than 20 are enough: log10(40 / 20) / log10(14 / 4)
    ['12/12/12', [4, 14], 0.5533],
  ])('%s', (received, sizes, value) => {
    const { quality, findings, unchecked } = of(received);
    expect(quality).toBe('uncertain');
    expect(findings).toMatchObject([{ code: 'flat_size_distribution', sizes, sizing, received }]);
    expect(findings[0]?.value).toBeCloseTo(value, 3);
    expect(unchecked).not.toContain('flat_size_distribution');
  });

  test('it is the steepest that counts of the code can be, and those are as flat', () => {
    const perMl = [2500, 2000, 1300.001];
    const [inCounts] = assessReading({ counts: { sizing, sizes: [4, 6, 14], perMl } }).findings;
    const [inCode] = of('18/18/18').findings;
    expect(inCounts?.code).toBe('flat_size_distribution');
    expect(inCounts?.limit).toBe(inCode?.limit);
    expect(inCounts?.value).toBeCloseTo(inCode?.value ?? 0, 5);
  });

  test.each([
    '20/19/18', // 10000 to 1300: 1.63, where 1.62 is the limit
    '18/16/13',
    '11/11/11', // more than 10 per mL are no 20
    '13/12/12', // 80 to 20: by the bands 1.11, but so few may be 1.72 by chance, were they counted in 1 mL
    '*/18/18',
    '>=18/18/18',
    '18/18/>=18',
    '>28/>28/>28',
    '10/16/16', // rises
  ])('%s does not prove it', (code) => {
    expect(of(code).findings.map((one) => one.code)).not.toContain('flat_size_distribution');
  });

  test('sizes less than twice apart are held against each other, too', () => {
    // 2500 to 1300 between 4 and 6 µm: 1.61, of 1.28 by the usual limit; 2500 to 20 between 4 and 14 µm: 3.85
    expect(of('18/18/12').findings).toEqual([]);
    expect(of('18/18/12', { flattestSteepness: 1.8 }).findings).toMatchObject([{ sizes: [4, 6] }]);
  });

  test('more than 10 per mL are no 20, however flat the limit; more than 20 are', () => {
    expect(of('-/11/11', { flattestSteepness: 2 }).findings).toEqual([]);
    expect(of('-/12/12', { flattestSteepness: 2 }).findings).toMatchObject([{ sizes: [6, 14] }]);
    // of sizes less than twice apart more than 80 are too few, too, and more than 160 are not
    expect(of('14/14/-', { flattestSteepness: 3 }).findings).toEqual([]);
    expect(of('15/15/-', { flattestSteepness: 3 }).findings).toMatchObject([{ sizes: [4, 6] }]);
  });

  test('it can be switched off, and microscope sizes are not judged', () => {
    expect(of('18/18/18', { flattestSteepness: null }).findings).toEqual([]);
    expect(assessReading({ codes: { iso4406Microscope: '-/18/18' } }).findings).toEqual([]);
  });

  test('no code that counts of dirt make is called flat', () => {
    // log N = c - 0.926 (log size)², the flattest that is known
    for (let c = 20; c < 70; c += 1) {
      const at = (size: number) => 10 ** (c / 10 - 0.926 * Math.log10(size) ** 2);
      const numbers = [4, 6, 14].map((size) => iso4406.limits.findIndex(([most]) => at(size) <= (most as number)));
      if (numbers.some((number) => number < 0)) continue;
      expect(of(numbers.join('/')).findings).toEqual([]);
    }
  });
});

test('counts beside the code decide', () => {
  const counts = { sizing, sizes: [4, 6, 14], perMl: [1890, 402, 33] } as const;
  for (const code of ['*/18/14', '>=18/>=16/>=13', '18/18/18'])
    expect(of(code, {}, { counts }).findings.map((one) => one.code)).not.toContain('flat_size_distribution');
  expect(of('*/18/14', {}, { counts }).findings.map((one) => one.code)).not.toContain('above_coincidence_limit');
});

test('in words, of the code and not of counts', () => {
  const said = (code: string, texts = germanTexts) => {
    const [finding] = of(code).findings;
    return finding === undefined ? [] : [findingText(finding), findingText(finding, texts)];
  };
  expect(said('18/16/>=13')).toEqual([
    "The code '18/16/>=13' says that fewer than 20 particles were counted at 14 µm(c): count longer.",
    "Laut Klasse '18/16/>=13' wurden bei 14 µm(c) weniger als 20 Partikel gezählt: länger zählen.",
  ]);
  expect(said('*/18/14')[0]).toMatch(/^The code '\*\/18\/14' says that there were more particles at 4 µm\(c\) than/);
  expect(said('*/18/14')[1]).toMatch(/^Laut Klasse '\*\/18\/14' waren es bei 4 µm\(c\) mehr Partikel, als/);
  expect(said('18/18/18')[0]).toMatch(
    /^By the code '18\/18\/18' the counts fall from 4 µm\(c\) to 14 µm\(c\) .* 0\.52/,
  );
  expect(said('18/18/18')[1]).toMatch(/^Nach der Klasse '18\/18\/18' fallen .* 0,52/);
});

test('of a table of its own sizes: from 4 µm(c) on, and to a size just twice as large', () => {
  const columns = [2, 4, 8].map((size) => ({ label: `${size}`, from: { iso11171: size } }));
  const table = { ...iso4406, id: 'twice', columns };
  const config = prepareMonitor({ codes: [{ table, target: '24/18/18' }] });
  const found = advanceMonitor(config, startMonitor(config), { time: 1e12, codes: { twice: '24/18/18' } }).verdict;
  expect(found?.findings).toMatchObject([{ code: 'flat_size_distribution', sizes: [4, 8] }]);
  // log10(2500 / 1300) / log10(8 / 4)
  expect(found?.findings[0]?.value).toBeCloseTo(0.9434, 3);
});

describe('a monitor', () => {
  const told = (table: typeof iso4406, code: string, target: string, setpoint: string) => {
    const config = prepareMonitor({
      codes: [{ table, target }],
      alarms: [{ id: 'dirty', type: 'high', figure: { code: table.id }, setpoint }],
    });
    const step = advanceMonitor(config, startMonitor(config), { time: 1e12, codes: { [table.id]: code } });
    const { quality, inTarget, findings } = step.verdict ?? {};
    return [quality, inTarget, findings?.map((one) => one.code), step.events.map(({ event }) => event)];
  };

  test.each([
    ['*/18/14', 'above_coincidence_limit'],
    ['>=22/>=20/>=17', 'few_particles'],
    ['22/22/22', 'flat_size_distribution'],
  ])('%s is uncertain, breaks the target, and raises the alarm', (code, finding) => {
    expect(told(iso4406, code, '18/16/13', '21/19/16')).toEqual(['uncertain', false, [finding], ['raised']]);
  });
});

describe('a proof', () => {
  const told = (target: string, code: string) => {
    const proof = prepareAcceptance({ table: iso4406, target, readings: 2 });
    const { events } = advanceAcceptance(proof, startAcceptance(proof), { time: 1e12, codes: { iso4406: code } });
    return events.map(({ event, why, missing }) => [event, why, missing?.toString()].join(' ').trim()).join();
  };

  test('asks for the marked sizes only where the target does', () => {
    expect(told('18/16/13', '17/15/>=11')).toBe('not_counted few_counted 14');
    expect(told('18/16/-', '17/15/>=11')).toBe('counted');
    expect(told('18/16/13', '17/15/11')).toBe('counted');
  });

  test('counts nothing that is flat or too many', () => {
    expect(told('18/18/18', '18/18/18')).toBe('not_counted uncertain');
    expect(told('-/18/14', '*/17/13')).toBe('not_counted uncertain');
  });
});
