/** Laws of diluting and of test dust: there and back. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { equivalentDustMgPerL, testDustCounts, undilute } from '../../../src/counts/index.ts';

const figure = (min: number, max: number) => fc.double({ min, max, noNaN: true });

test('undilute gives back the oil that was mixed', () => {
  const mixed = [figure(1e-9, 1e7), figure(1e-9, 100), figure(0.1, 1000), figure(0, 1000)] as const;
  fc.assert(
    fc.property(...mixed, (oil, diluentPerMl, sampleMl, diluentMl) => {
      const total = sampleMl + diluentMl;
      const mixturePerMl = (oil * sampleMl + diluentPerMl * diluentMl) / total;
      const found = undilute({ mixturePerMl, diluentPerMl, sampleMl, diluentMl });
      // the blank takes digits from the oil: it is the mixture that is known to a rounding
      expect(Math.abs(found - oil)).toBeLessThanOrEqual((16e-16 * mixturePerMl * total) / sampleMl);
    }),
  );
});

test('a mixture of the blank alone holds no oil particles', () => {
  fc.assert(
    fc.property(figure(1e-9, 1e6), figure(0.1, 100), figure(0.1, 100), (blank, sampleMl, diluentMl) => {
      const mixturePerMl = (blank * diluentMl) / (sampleMl + diluentMl);
      const found = undilute({ mixturePerMl, diluentPerMl: blank, sampleMl, diluentMl });
      expect(found).toBeLessThanOrEqual((1e-14 * (blank * diluentMl)) / sampleMl);
    }),
  );
});

test('test dust: the concentration comes back, at every size', () => {
  fc.assert(
    fc.property(figure(1e-6, 1e6), (mgPerL) => {
      const dust = equivalentDustMgPerL(testDustCounts(mgPerL));
      for (const { mgPerL: found } of [dust, ...dust.bySize]) expect(Math.abs(found / mgPerL - 1)).toBeLessThan(1e-14);
    }),
  );
  expect(testDustCounts(0).perMl.every((perMl) => perMl === 0)).toBe(true);
});
