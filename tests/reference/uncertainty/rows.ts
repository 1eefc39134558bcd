/** Scores, repeats, blanks, agreement, microscope and balance; uncertainty of a code. */
import {
  blandAltman,
  codeUncertainty,
  detectionLimits,
  enScore,
  indexOfDispersion,
  iso4406,
  zetaScore,
} from '../../../src/codes/index.ts';
import { cumulativeCounts, gravimetricLevel, microscopeCount } from '../../../src/counts/index.ts';
import { type Row, rowsOf, type Value, value } from '../ledger.ts';
import codes from './codes.json' with { type: 'json' };
import compare from './compare.json' with { type: 'json' };

type Given = Readonly<Record<string, number>>;
/** What each example is worked with: the function, and its result from the inputs of the example. */
type Worked = readonly [name: string, found: (inputs: never) => object];

const repeated = ({ counts }: { readonly counts: Given }) =>
  indexOfDispersion(Object.entries(counts).flatMap(([count, times]) => new Array<number>(times).fill(Number(count))));

/** A blank that is well known was counted in a volume ten thousand times as large. */
const againstBlank = ({ blank, ratio }: { readonly blank: number; readonly ratio: number }) => {
  const times = ratio === 0 ? 10000 : 1;
  return detectionLimits({ counted: blank * times, volumeMl: 10 * times }, 10);
};

const meters = () => {
  const { a, b } = (compare.find(({ id }) => id === 'pefr-limits-1.96') as (typeof compare)[0]).inputs as {
    a: number[];
    b: number[];
  };
  return blandAltman(a.map((line, i) => ({ line, laboratory: b[i] as number })));
};

const worked: Readonly<Record<string, Worked>> = {
  'gear-en-4': [
    'enScore',
    ({ x, U, reference, Uref }: { x: number; U: number; reference: number; Uref: number }) => ({
      en: enScore({ value: x, expanded: U }, { value: reference, expanded: Uref }),
    }),
  ],
  'zeta-is-2-en': [
    'zetaScore',
    ({ x, u, reference, uref }: { x: number; u: number; reference: number; uref: number }) => ({
      zeta: zetaScore({ value: x, standard: u }, { value: reference, standard: uref }),
    }),
  ],
  'student-1907-dispersion': ['indexOfDispersion', repeated],
  'bortkiewicz-dispersion': ['indexOfDispersion', repeated],
  'currie-paired-100': ['detectionLimits', againstBlank],
  'currie-paired-400': ['detectionLimits', againstBlank],
  'currie-well-known-100': ['detectionLimits', againstBlank],
  // volumes in place of minutes
  'currie-unequal-times': [
    'detectionLimits',
    ({ blankPerMin, blankMin, sampleMin }: { blankPerMin: number; blankMin: number; sampleMin: number }) => {
      const blank = { counted: blankPerMin * blankMin, volumeMl: blankMin };
      return { detectionPerMin: detectionLimits(blank, sampleMin).detection / sampleMin };
    },
  ],
  'pefr-limits-1.96': ['blandAltman', meters],
  'pefr-bias': ['blandAltman', meters],
  microscope: [
    'microscopeCount',
    (inputs: Parameters<typeof microscopeCount>[0]) => {
      const found = microscopeCount(inputs);
      return { ...found, perMlHundred: found.perMl * 100 };
    },
  ],
  gravimetric: [
    'gravimetricLevel',
    ({ before, after, controlBefore, controlAfter, volumeMl, uBalance, uVolume }: Record<string, number>) => {
      const found = gravimetricLevel({
        beforeMg: before,
        afterMg: after,
        controlBeforeMg: controlBefore,
        controlAfterMg: controlAfter,
        volumeMl,
        balanceMg: uBalance,
        volume: uVolume,
      } as Parameters<typeof gravimetricLevel>[0]);
      return { ...found, u: found.standard };
    },
  ],
};

function examples(): Row[] {
  return compare.flatMap(({ id, inputs, expected, tolerance, ...cited }) => {
    const [name, found] = worked[id] as Worked;
    const { absolute, relative = 0 }: { absolute?: number; relative?: number } = tolerance;
    return rowsOf(
      cited,
      Object.entries(expected as Given).map(([figure, printed]) => {
        // Fisher's index names the chance of more than this sum p
        const member = figure === 'pMore' ? 'p' : figure;
        const room = absolute ?? relative * Math.abs(printed);
        return value(
          name,
          { id, figure },
          printed,
          room,
          () => (found(inputs as never) as Given)[member],
          `${id}: ${figure}`,
        );
      }),
    );
  });
}

interface CodeCase {
  readonly id: string;
  readonly inputs: Given;
  readonly expected: {
    readonly combined: number;
    readonly low: number;
    readonly high: number;
    readonly probabilities: readonly (readonly [number, number])[];
  };
  readonly tolerance: { readonly relative: number; readonly probability: number };
}

function codeValues({ id, inputs, expected, tolerance }: CodeCase): Value[] {
  const { counted, volumeMl, coincidenceShare: _rectangle, ...errors } = inputs;
  const found = () => {
    const counts = cumulativeCounts({ 4: counted as number }, { volumeMl: volumeMl as number });
    return codeUncertainty(iso4406, counts, errors).columns[0];
  };
  const of = (figure: string, printed: number, room: number, get: () => number | undefined) =>
    value('codeUncertainty', { id, figure }, printed, room, get, `${id}: ${figure}`);
  const relative = tolerance.relative * (counted === 1500 ? 2 : 1);
  const first = expected.probabilities[0]?.[0] as number;
  return [
    of('combined', expected.combined, 5e-13, () => found()?.relative),
    of('low', expected.low, relative * expected.low, () => found()?.low),
    of('high', expected.high, relative * expected.high, () => found()?.high),
    ...expected.probabilities.map(([scale, printed]) =>
      of(`scale number ${scale}`, printed, tolerance.probability, () => {
        const chances = found()?.probabilities;
        // the list begins at its first scale number: what lies below is in it
        const below = scale === 1 && first === 1 ? (chances?.[0]?.probability ?? 0) : 0;
        return (chances?.[scale]?.probability ?? Number.NaN) + below;
      }),
    ),
  ];
}

function codeCases(): Row[] {
  return codes
    .filter(({ id }) => id !== 'gamma-mean')
    .flatMap((one) => rowsOf(one, codeValues(one as unknown as CodeCase)));
}

/** The mean and the variance of what a count of q tells of its expectation: alone, their root over it is the whole. */
function countAlone(): Row[] {
  const {
    inputs: _none,
    expected: _rule,
    tolerance: _exact,
    ...cited
  } = codes.find(({ id }) => id === 'gamma-mean') as (typeof codes)[0];
  const alone = { volume: 0, sizing: 0, certificate: 0, coincidence: 0, sampling: 0 };
  return rowsOf(
    { ...cited, source: { ...cited.source, document: 'JCGM 101' } },
    [9].map((counted) =>
      value('codeUncertainty', { counted, ...alone }, counted + 1, 1e-9 * (counted + 1), () => {
        const counts = cumulativeCounts({ 4: counted }, { volumeMl: 10 });
        const relative = codeUncertainty(iso4406, counts, alone).columns[0]?.relative as number;
        return 1 / (relative * relative);
      }),
    ),
  );
}

export const rows: readonly Row[] = [...examples(), ...codeCases(), ...countAlone()];
