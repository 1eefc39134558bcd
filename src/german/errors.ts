/** Errors in German, by their code. */
import type { Texts } from '../report/index.ts';

/** One sentence for each code. */
export const germanErrors: Texts['errors'] = {
  wrong_type: '{parameter} ist von falscher Art: {received}.',
  not_a_number: '{parameter} ist keine Zahl: {received}.',
  infinite: '{parameter} ist unendlich.',
  negative: '{parameter} ist negativ: {received}.',
  not_an_integer: '{parameter} ist keine ganze Zahl: {received}.',
  out_of_range: '{parameter} liegt außerhalb des Bereichs: {received}.',
  empty: '{parameter} ist leer.',
  too_few: '{parameter} hat zu wenige: {received}.',
  length_mismatch: '{parameter} hat eine andere Länge: {received}.',
  unknown_option: '{parameter} ist unbekannt: {received}.',
  unknown_sizing: '{parameter} ist keine bekannte Größenbestimmung: {received}.',
  sizing_not_convertible: '{parameter} lässt sich nicht in eine andere Größenbestimmung umrechnen: {received}.',
  sizes_out_of_order: '{parameter} steht nicht in der Reihenfolge der Größen: {received}.',
  counts_rise_with_size: '{parameter} steigt mit der Größe: {received}.',
  missing_size: '{parameter} fehlt eine Größe: {received}.',
  missing_volume: '{parameter} fehlt das Volumen: {received}.',
  bad_table: '{parameter} ist keine brauchbare Tabelle: {received}.',
  bad_code: '{parameter} ist keine Klasse: {received}.',
  wrong_table: '{parameter} gehört zu einer anderen Tabelle: {received}.',
  not_convertible: '{parameter} lässt sich nicht umrechnen: {received}.',
  bad_state: '{parameter} ist kein Zustand: {received}.',
  bad_configuration: '{parameter} passt nicht: {received}.',
  not_prepared: '{parameter} ist nicht vorbereitet: {received}.',
  bad_csv: '{parameter} ist keine Tabelle mit Trennzeichen: {received}.',
  no_answer: '{parameter} lässt keine Antwort zu: {received}.',
};
