/**
 * What a period and the page of a sample say in German.
 */
import type { PeriodTexts, SheetTexts } from '../report/index.ts';

/** A period in words. */
export const germanPeriod: PeriodTexts = {
  title: 'Ölreinheit',
  fromTo: '{from} bis {to}',
  from: 'ab {from}',
  until: 'bis {to}',
  zoned: '{period} ({zone})',
  heads: {
    readings: 'Messungen',
    judged: 'Beurteilt',
    target: 'Ziel',
    verdicts: 'Urteile',
    events: 'Ereignisse',
    perMl: 'Partikel je mL',
  },
  columns: { lowest: 'kleinster', median: 'mittlerer', highest: 'größter', last: 'letzter' },
  noReadings: 'keine: vom Öl ist nichts bekannt',
  qualities: '{total}: {good} gut, {uncertain} unsicher, {bad} unbrauchbar',
  noneUsable: 'Auf keine ist Verlass: Sie sagen nichts über das Öl.',
  judged: '{standard} nur bei {columns}',
  target: '{standard} {code}: {outcome}',
  notJudged: 'nicht zu beurteilen: Keine Messung hat alle Größen',
  met: 'von {met} der {judged} eingehalten',
  oneMet: 'von {met} der {judged} eingehalten',
  allGood: ', alle davon gut',
  noneGood: ', keine davon gut',
  someGood: ', davon {number} gut',
  lastMet: '; auch von der letzten',
  lastMissed: '; nicht von der letzten',
  unjudged: '; {number} nicht zu beurteilen',
  lastUnjudged: ', darunter die letzte',
  probability: '; tatsächlich bei der letzten mit {percent} Wahrscheinlichkeit',
  unknownCode: 'unbekannt',
  noEvents: 'keine',
};

/** One sample on a page. */
export const germanSheet: SheetTexts = {
  title: 'Probe',
  heads: {
    counts: 'Zählwerte',
    codes: 'Klassen und die Grenzen, die entschieden haben',
    certainty: 'Wie sicher',
    target: 'Ziel',
    notLooked: 'Nicht betrachtet',
    method: 'Wie gerechnet wurde',
  },
  columns: {
    size: 'Größe',
    perMl: 'je mL',
    counted: 'gezählt',
    low: '95 % von',
    high: 'bis',
    column: 'Spalte',
    class: 'Klasse',
    count: 'Anzahl',
    above: 'über',
    upTo: 'bis',
  },
  sampled: 'Entnommen {time} ({zone})',
  volume: 'Gezählt in {volume} mL',
  dilution: '{dilution}-fach verdünnt',
  noVolume: 'Das gezählte Volumen ist nicht angegeben.',
  rawNotGiven: 'Nur Zählwerte je mL sind angegeben: Wie sicher die Klasse ist, lässt sich nicht sagen.',
  noCode: '{standard}: keine Klasse, den Zählwerten fehlen Größen',
  noLimit: 'keine',
  sure: '{standard}: am wahrscheinlichsten {code}; {percent}-Grenzen bei jeder Größe {low} bis {high}',
  notSure: '{standard}: lässt sich nicht sagen',
  met: '{standard} {code}: von den Zählwerten eingehalten',
  missed: '{standard} {code}: von den Zählwerten nicht eingehalten',
  open: '{standard} {code}: nicht zu beurteilen, den Zählwerten fehlen verlangte Größen',
  probability:
    'In Wahrheit eingehalten mit einer Wahrscheinlichkeit von {percent}, bei den unten genannten Abweichungen.',
  noProbability: 'Mit welcher Wahrscheinlichkeit es in Wahrheit eingehalten ist, lässt sich nicht sagen.',
  few: '>= vor einer Klasse: Weniger als 20 Partikel wurden gezählt, die wahre Klasse kann höher sein.',
  sizing: {
    iso11171: 'Größen in µm(c): flächengleicher Durchmesser, Zähler nach ISO 11171 kalibriert.',
    iso11171b: 'Größen in µm(b): ISO 11171 mit den Größen des Referenzmaterials, wie sie zuerst bescheinigt wurden.',
    iso4402: 'Größen in µm: Zähler mit Prüfstaub nach ISO 4402 (zurückgezogen) kalibriert.',
    microscope: 'Größen in µm: längste Ausdehnung unter dem Mikroskop.',
  },
  standard: '{standard}: {source}; Grenzen je {volume} mL',
  rounding:
    'Über eine Klasse entscheidet der Zählwert, wie er ist, gegen die gedruckte Grenze (bis einschließlich); ' +
    'gerundet wird nur für dieses Blatt.',
  version: 'Gerechnet mit motescale {version}.',
  errors: 'Angenommene relative Standardunsicherheiten: {errors}.',
  errorParts: {
    volume: 'Volumen {percent}',
    flow: 'Volumenstrom {percent}',
    sizing: 'Größen {percent}',
    certificate: 'Bescheinigung {percent}',
    coincidence: 'Koinzidenz bis {percent}',
    sampling: 'Probenahme {percent}',
  },
  lookedAt: {
    sampling: 'wie gut die Probe für das Öl der Maschine steht',
    flow: 'ob der Volumenstrom durch den Sensor gleichmäßig war',
    certificate: 'die Bescheinigung der Kalibrierflüssigkeit',
    coincidence: 'Partikel, die zugleich durch den Sensor gingen',
    water_and_air: 'Wassertropfen und Luftblasen, die als Partikel zählen',
    particle_nature: 'woraus die Partikel bestehen',
    raw_counts: 'wie viele Partikel gezählt wurden: Nur Zählwerte je mL sind angegeben',
    larger_sizes: 'andere Größen als die genannten',
  },
  disclaimer:
    'Es beschreibt diese Probe. Ob eine Maschine laufen darf, entscheiden die, die für sie verantwortlich sind.',
};
