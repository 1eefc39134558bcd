import { describe, expect, test } from 'vitest';
import * as codes from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { stream } from '../../doubles.ts';
import { indexOf, sizesOf, tables } from '../samples.ts';

const { as4059Cumulative, classify, guaranteeingCode, iso4406, limitsOf, nas1638, parseCode } = codes;

describe('guaranteeingCode', () => {
  const sized = tables.map(([table]) => table).filter((table) => table.id !== 'iso4406Microscope');

  test.each(sized)('$id: every class, by its own worst sample, and no part can be raised', (table) => {
    const random = stream(5);
    for (const className of table.classes) {
      const found = tryGuarantee(table, className);
      if (found === null) continue;
      const { code, unseen } = found;
      const index = table.classes.indexOf(className);
      const seen = table.columns.map((column) => column.label).filter((label) => !unseen.includes(label));
      const { bands } = limitsOf(iso4406, code);
      const fails = (perMl: Record<number, number>) => {
        const sizes = Object.keys(perMl).map(Number);
        const counts = cumulativeCounts(perMl);
        const filled = seen.filter((label) => {
          const column = table.columns.find((candidate) => candidate.label === label);
          const to = column?.to?.iso11171;
          return sizes.includes(column?.from.iso11171 as number) && (to === undefined || sizes.includes(to));
        });
        if (filled.length === 0) return false;
        return indexOf(table, classify(table, counts, { columns: filled }).worst) > index;
      };
      const sizes = [...new Set([4, 6, 14, ...sizesOf(table, 'iso11171')])].sort((a, b) => a - b);
      for (let i = 0; i < 60; i += 1)
        expect(fails(withinCode(random, sizes, bands)), `${className} ${code.text}`).toBe(false);
      bands.forEach((band, i) => {
        if (bands.slice(0, i).some((smaller) => (smaller.upTo as number) <= (band.upTo as number))) return;
        const raised = bands.map((other) =>
          other === band ? { ...other, upTo: nextLimit(other.upTo as number) } : other,
        );
        const broken = Array.from({ length: 60 }, () => withinCode(random, sizes, raised, band.from)).some(fails);
        expect(broken, `${table.id} ${className}: ${code.text} with ${band.from} µm(c) raised by one`).toBe(true);
      });
    }
  });

  function tryGuarantee(table: codes.ClassTable, className: string): ReturnType<typeof guaranteeingCode> | null {
    try {
      return guaranteeingCode(table, className);
    } catch (error) {
      expect(error).toMatchObject({ code: 'no_answer' });
      return null;
    }
  }

  function nextLimit(upTo: number): number {
    const index = iso4406.limits.findIndex(([limit]) => limit === upTo);
    return iso4406.limits[index + 1]?.[0] ?? 5e6;
  }

  /**
   * A sample whose counts keep the code: at the limit of each size as often as not, with nothing of the larger sizes as
   * often as not.
   */
  function withinCode(
    random: () => number,
    sizes: readonly number[],
    bands: readonly codes.CountBand[],
    pushed?: number,
  ): Record<number, number> {
    const perMl: Record<number, number> = {};
    let before = 1e9;
    for (const size of sizes) {
      const most = Math.min(before, ...bands.filter((band) => band.from <= size).map((band) => band.upTo as number));
      const most0 = pushed !== undefined && size >= pushed ? most : most * (random() < 0.5 ? 1 : random());
      const keep = pushed !== undefined && size > pushed ? (random() < 0.5 ? 0 : most0) : most0;
      perMl[size] = keep;
      before = keep;
    }
    return perMl;
  }
});

test('a target written size by size, or for several sizes, asks only for the columns it names', () => {
  // SAE AS4059 rev. F, Table 2: class 6 allows 19462, 3462, 612 and 106 per 100 mL in B to E (tests/reference/classes)
  const asked = (target: string) => {
    const { code, unseen } = guaranteeingCode(as4059Cumulative, target);
    return [code.text, unseen];
  };
  expect(asked('6')).toEqual(['15/14/11', ['D', 'E', 'F']]);
  expect(asked('6B/6C/6D')).toEqual(['-/14/11', ['D']]);
  expect(asked('6B')).toEqual(['-/14/-', []]);
  expect(asked('6B-F')).toEqual(['-/14/11', ['D', 'E', 'F']]);
  expect(asked('7B/6C/5D')).toEqual(['-/15/11', ['D']]);
  expect(guaranteeingCode(iso4406, '18/16/13').code.text).toBe('18/16/13');
  expect(() => guaranteeingCode(nas1638, '13')).toThrow(/target/);
  expect(() => guaranteeingCode(as4059Cumulative, parseCode(nas1638, '6'))).toThrow(/table/);
});
