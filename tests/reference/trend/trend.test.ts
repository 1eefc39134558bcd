import { expect, test } from 'vitest';
import { mannKendall } from '../../../src/trend/mannKendall.ts';

test('small series are counted out, larger ones and tied times are not, unless asked', () => {
  const ten = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
  expect(mannKendall(ten)).toMatchObject({ basis: 'exact', s: 45, p: 2 / 3628800, tau: 1 });
  expect(mannKendall([...ten, 11]).basis).toBe('normal');
  expect(mannKendall([...ten, 11], { method: 'exact' })).toMatchObject({ basis: 'exact', p: 2 / 39916800 });
  expect(mannKendall([1, 2, 3], { times: [1, 1, 2] })).toMatchObject({ basis: 'normal', s: 2 });
});
