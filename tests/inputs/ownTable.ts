import type { OwnTable } from '../../src/codes/index.ts';

/** A small table of a user's own: two cumulative columns, two classes. */
export const ownTable: OwnTable = {
  id: 'own',
  title: 'Own',
  counting: 'cumulative',
  perVolumeMl: 1,
  columns: [
    { label: '6', from: { iso11171: 6 } },
    { label: '14', from: { iso11171: 14 } },
  ],
  classes: ['a', 'b'],
  limits: [
    [10, 1],
    [20, 2],
  ],
};
