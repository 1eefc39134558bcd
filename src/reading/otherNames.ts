/** Units and names that a reading does not have, and what stands for them. */
export const otherNames = {
  fahrenheit: "'celsius': fahrenheitToCelsius",
  psi: "'kPa': psiToKPa",
  bar: "'kPa': barToKPa",
  cSt: "'mm2PerS', the same figure",
  lPerMin: "'mlPerMin', 1000 times as many",
  iso4406: "codes: { iso4406: '18/16/13' }",
};
