/** Laws of coincidence: the loss to the last digits, however small, and each function the inverse of the other. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type CoincidenceModel,
  coincidenceLoss,
  correctCoincidence,
  sensingVolume,
} from '../../../src/counts/index.ts';
import { Exact, exactly, stream, ulpsOff } from '../../doubles.ts';

const models: readonly CoincidenceModel[] = ['paralyzable', 'non_paralyzable', 'wales_wilson', 'princen_kwolek'];

/** The loss of each model to fifty digits. */
function lossOf(x: number, model: CoincidenceModel) {
  const truth = exactly(x);
  const free = Exact.exp(truth.negated());
  if (model === 'paralyzable') return new Exact(1).minus(free);
  if (model === 'non_paralyzable') return truth.dividedBy(truth.plus(1));
  if (model === 'wales_wilson') return new Exact(1).minus(new Exact(1).minus(free).dividedBy(truth));
  return truth.dividedBy(2);
}

describe.each(models)('%s', (model) => {
  const ends = model === 'paralyzable' || model === 'princen_kwolek';

  test('the loss against 50 digits, from 1e-12 up', () => {
    const random = stream(1961);
    for (let i = 0; i < 600; i += 1) {
      const x = 10 ** (-12 + random() * (ends ? 12 : 14));
      const { loss } = coincidenceLoss(x, { sensingVolumeMl: 1, model });
      expect(ulpsOff(loss, lossOf(x, model))).toBeLessThanOrEqual(6);
    }
  });

  test('the sensing volume has the loss it was made for', () => {
    const random = stream(1965);
    for (let i = 0; i < 300; i += 1) {
      const loss = 10 ** (-11 * random()) * (ends ? 0.49 : 0.99);
      const volume = sensingVolume({ limitPerMl: 1, model, loss });
      expect(lossOf(volume, model).minus(exactly(loss)).abs().dividedBy(loss).toNumber()).toBeLessThan(3e-15);
    }
  });

  test('there and back, to the crest and down to nothing', () => {
    const x = fc.oneof(
      fc.double({ min: 0, max: 0.9, noNaN: true }),
      fc.double({ min: 5e-324, max: 1e-15, noNaN: true }),
    );
    fc.assert(
      fc.property(x, (perMl) => {
        const options = { sensingVolumeMl: 1, model };
        const back = correctCoincidence(coincidenceLoss(perMl, options).observedPerMl, options);
        expect(Math.abs(back.perMl - perMl)).toBeLessThanOrEqual(1e-13 * perMl);
      }),
    );
    for (const perMl of ends ? [1, 1 - 1e-16, 1 - 2e-16, 1 - 4e-16, 1 - 1e-12] : []) {
      for (const sensingVolumeMl of [1, 1e-6, 3e-7, 0.7]) {
        const options = { sensingVolumeMl, model };
        const { observedPerMl } = coincidenceLoss((perMl / sensingVolumeMl) * (1 - 2e-16), options);
        expect(correctCoincidence(observedPerMl, options).perMl * sensingVolumeMl).toBeCloseTo(1, 6);
      }
    }
  });

  test('next to nothing is lost where next to nothing is there', () => {
    const options = { sensingVolumeMl: 1e-12, model };
    expect(correctCoincidence(1e-200, options).perMl).toBe(1e-200);
    expect(coincidenceLoss(1e-320, options).observedPerMl).toBe(1e-320);
  });
});
