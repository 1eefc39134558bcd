/** Figures that are wrong where they are printed: the library must differ from them, and give the right one. */
import { classify, iso4406Microscope, nas1638 } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import { timeForTurnovers, timeToReach } from '../../src/filtration/index.ts';
import { usGallonsToLitres } from '../../src/units.ts';
import { refutasNumber } from '../../src/viscosity/blending.ts';
import { convertViscosity, saeEngineGradeLimits, viscosityLine } from '../../src/viscosity/index.ts';
import misprints from './misprints.json' with { type: 'json' };

type Found = number | string | null | undefined;

/** What the library says in place of a misprint, by function. */
const says = {
  nas1638: ({ class: name, column }: { class: string; column: string }) =>
    nas1638.limits[nas1638.classes.indexOf(name)]?.[nas1638.columns.findIndex(({ label }) => label === column)],
  classify: (counts: Record<string, number>) =>
    classify(iso4406Microscope, cumulativeCounts(counts, { sizing: 'microscope' })).text,
  convertViscosity: ({ mm2PerS }: { mm2PerS: number }) => convertViscosity(mm2PerS, 'mm2/s', 'redwood1-nbs'),
  timeToReach: ({ changesPerHour, left }: { changesPerHour: number; left: number }) =>
    timeToReach({ litres: 60, litresPerMin: changesPerHour, beta: Infinity, perMl: 1 }, left),
  viscosityLine: ({ c1, v1, c2, v2 }: { c1: number; v1: number; c2: number; v2: number }) =>
    viscosityLine([
      { celsius: c1, mm2PerS: v1 },
      { celsius: c2, mm2PerS: v2 },
    ]).b,
  refutasNumber: ({ mm2PerS }: { mm2PerS: number }) => refutasNumber(mm2PerS),
  saeEngineGradeLimits: ({ grade }: { grade: string }) => saeEngineGradeLimits(grade)[0]?.crankingMost?.mPaS,
  timeForTurnovers: (tank: { usGallons: number; usGallonsPerMin: number; turnovers: number }) => {
    const litres = usGallonsToLitres(tank.usGallons);
    return timeForTurnovers({ litres, litresPerMin: usGallonsToLitres(tank.usGallonsPerMin) }, tank.turnovers);
  },
};

type Misprint = (typeof misprints)[number];

export const known: readonly (Misprint & { readonly found: () => Found })[] = misprints.map((misprint) => ({
  ...misprint,
  found: () => (says[misprint.function as keyof typeof says] as (inputs: never) => Found)(misprint.inputs as never),
}));
