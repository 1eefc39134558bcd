/**
 * All words of the library in German, in an entry of their own: who does not use them does not carry them.
 *
 * @module german
 */
import type { Texts } from '../report/index.ts';
import { germanAcceptanceSheet } from './acceptanceSheet.ts';
import { germanCharts } from './charts.ts';
import { germanErrors } from './errors.ts';
import { germanEvents } from './events.ts';
import { germanExpected } from './expected.ts';
import { germanBetween, germanFindings, germanOfCodes } from './findings.ts';
import { germanPeriod, germanSheet } from './pages.ts';
import { germanAcceptance, germanFlowControl } from './procedures.ts';

export { version } from '../version.ts';

/** German, for the `texts` of reports, messages and findings. */
export const germanTexts: Texts = {
  language: 'de',
  decimalSign: ',',
  groupSign: '.',
  and: ' und ',
  sizeUnits: { iso11171: 'µm(c)', iso11171b: 'µm(b)', iso4402: 'µm', microscope: 'µm' },
  figures: {
    counts: 'Zählwerte',
    mlPerMin: 'Volumenstrom',
    kPa: 'Druck',
    celsius: 'Temperatur',
    mm2PerS: 'Viskosität',
    waterSaturation: 'Wasser',
  },
  findings: germanFindings,
  ofCodes: germanOfCodes,
  between: germanBetween,
  percent: '{number} %',
  qualities: { good: 'gut', uncertain: 'unsicher', bad: 'ungültig' },
  arrivals: { set_aside: 'zurückgehalten: Zeit liegt weit voraus', repeated: 'doppelt' },
  verdicts: {
    in_target: 'Zielwert eingehalten',
    above_target: 'über dem Zielwert',
    not_judged: 'Zielwert nicht beurteilt',
    not_relied_on: 'ungültig',
  },
  durations: {
    seconds: '{number} s',
    minutes: '{number} min',
    hours: '{number} h',
    days: '{number} d',
    centuries: 'mehr als 100 Jahre',
  },
  orDirtier: 'oder schmutziger',
  noParticles: 'Bei keiner Größe ein Partikel: sauberes Öl, oder ein Zähler, der nichts zählt.',
  rows: {
    time: 'Zeit ({zone})',
    offset: 'Zeitzone',
    perMl: '{size} je mL',
    quality: 'Qualität',
    verdict: 'Bewertung',
    doubts: 'zweifelhafte Messwerte',
    arrival: 'Eingang',
  },
  measured: {
    mlPerMin: 'Volumenstrom (mL/min)',
    kPa: 'Druck (kPa)',
    celsius: 'Temperatur (°C)',
    mm2PerS: 'Viskosität (mm²/s)',
    waterSaturation: 'Wassersättigung (%)',
  },
  charts: germanCharts,
  period: germanPeriod,
  sheet: germanSheet,
  events: germanEvents,
  flowControl: germanFlowControl,
  acceptance: germanAcceptance,
  acceptanceSheet: germanAcceptanceSheet,
  errors: germanErrors,
  errorLine: '{parameter}, Zeile {number},',
  problems: {
    whole: 'Die Eingabe',
    line: 'Zeile {number}',
    cell: 'Zeile {number}, Spalte „{column}“,',
    column: 'Spalte „{column}“',
    absent: '{parameter} kam nicht.',
    leftOut: 'Weggelassen.',
    kept: 'Behalten.',
    readAs: 'Gelesen als {value}.',
    readBecause: 'Gelesen als {value}: {why}.',
  },
  expectation: 'Erwartet: {expected}.',
  expected: germanExpected,
};
