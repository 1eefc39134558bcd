/** Where the figures and formulas of the line to the sensor and the flow in it come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<
  Record<
    | 'flowControl'
    | 'flush'
    | 'regime'
    | 'colebrook'
    | 'pressureDrop'
    | 'fittings'
    | 'pumpInlet'
    | 'stokes'
    | 'schillerNaumann'
    | 'settlingLoss'
    | 'suspension'
    | 'flowControlFor'
    | 'pumpFlow',
    Source
  >
> = {
  flowControl: {
    document: 'K. J. Åström and T. Hägglund, PID Controllers: Theory, Design, and Tuning',
    edition: '2nd edition, 1995',
    place: 'chapter 3: integrator windup (conditional integration), bumpless transfer, discretization',
    standing: 'from memory',
  },
  flush: {
    document: 'O. Levenspiel, Chemical Reaction Engineering',
    edition: '3rd edition, 1999',
    place: 'convection model for laminar flow: F(t) = 1 - (tau / 2t)^2 for t of tau / 2 and more',
    standing: 'from memory',
  },
  // Other texts end laminar flow at 2300.
  regime: {
    document: 'Hydraulic Institute, Engineering Data Book; also Crane Technical Paper 410',
    edition: '2nd edition, 1990',
    place: 'section 3.A: laminar below 2000, critical zone 2000 to 4000, turbulent above',
    standing: 'published',
  },
  colebrook: {
    document: 'Hydraulic Institute, Engineering Data Book; also Crane Technical Paper 410',
    edition: '2nd edition, 1990',
    place: 'section 3.A, Colebrook equation: 1/sqrt(f) = -2 log10(e / 3.7 + 2.51 / (Re sqrt(f)))',
    standing: 'published',
  },
  pressureDrop: {
    document: 'Hydraulic Institute, Engineering Data Book; also Crane Technical Paper 410',
    edition: '2nd edition, 1990; Crane: metric, year not known',
    place: "section 3.A: Hagen-Poiseuille's law, Darcy's equation, loss coefficients K",
    standing: 'published',
  },
  fittings: {
    document: 'W. B. Hooper, Chemical Engineering: the two-K method predicts head losses in pipe fittings',
    edition: '24 August 1981',
    place: 'p. 96: K = K1 / Re + K of large fittings (1 + 1 / bore in inches); here k1 and k',
    standing: 'from memory',
  },
  pumpInlet: {
    document: 'Hydraulic Institute, Engineering Data Book; also Crane Technical Paper 410',
    edition: '2nd edition, 1990',
    place:
      'absolute heads at the pump inlet: atmosphere, less lift, less friction (vapour pressure is a limit, not a ' +
      'term here)',
    standing: 'published',
  },
  stokes: {
    document: "D. W. Green and R. H. Perry, Perry's Chemical Engineers' Handbook",
    edition: '8th edition, 2008 (year from memory)',
    place: "Stokes's law: v = g d^2 (particle density - liquid density) / (18 viscosity); page not recorded",
    standing: 'published',
  },
  schillerNaumann: {
    document: 'L. Schiller and A. Naumann, Zeitschrift des VDI 77, 318 (page from memory): drag of spheres',
    edition: '1933',
    place: 'Cd = 24 / Re (1 + 0.15 Re^0.687), Re below 800',
    standing: 'from memory',
  },
  settlingLoss: {
    document:
      'J. W. Thomas (1958); J. Pich, Journal of Aerosol Science 3, 351: sedimentation in a horizontal round tube',
    edition: '1958; 1972',
    place: 'loss = 2/pi (2 e sqrt(1 - e^(2/3)) - e^(1/3) sqrt(1 - e^(2/3)) + arcsin e^(1/3)), e = 3 L v / (4 D V)',
    standing: 'from memory',
  },
  suspension: {
    document: 'R. A. Bagnold, US Geological Survey Professional Paper 422-I; equal to a Rouse number of 2.5',
    edition: '1966',
    place: 'particles stay up while they settle more slowly than the friction velocity',
    standing: 'from memory',
  },
  flowControlFor: {
    document: 'S. Skogestad, Journal of Process Control 13, 291-309',
    edition: '2003',
    place: 'equations 23 and 24 and the half rule',
    standing: 'from memory',
  },
  pumpFlow: {
    document: 'ISO 4391, Hydraulic fluid power - Pumps, motors and integral transmissions - Parameter definitions',
    edition: '1983',
    place: 'volumetric efficiency: effective output flow over displacement times rotational frequency',
    standing: 'from memory',
  },
};
