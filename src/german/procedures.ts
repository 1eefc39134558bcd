/** Flow control and the proof of a flush in German. */
import type { AcceptanceTexts } from '../acceptance/index.ts';
import type { FlowControlTexts } from '../sampling/index.ts';

export const germanFlowControl: FlowControlTexts = {
  signal_lost: {
    manual: 'Das Signal des Volumenstroms fehlt; die Drehzahl ist von Hand gestellt.',
    starting: 'Es gibt kein Signal des Volumenstroms: Die Pumpe wird nicht gestartet.',
    other: 'Das Signal des Volumenstroms fehlt: Drehzahl gehalten bei {percent} %.',
  },
  signal_back: 'Das Signal des Volumenstroms ist wieder da.',
  to_manual: 'Die Drehzahl wird von Hand gestellt.',
  to_automatic: 'Die Drehzahl wird nach dem Volumenstrom gestellt.',
  viscosity_outside: 'Die Viskosität liegt außerhalb der Punkte der Inbetriebnahme: Der äußere gilt.',
  viscosity_inside: 'Die Viskosität liegt wieder innerhalb der Punkte der Inbetriebnahme.',
  oscillation:
    'Der Volumenstrom schwingt um den Sollwert. Rauscht sein Signal, für jeden Schritt über mehr Messwerte mitteln; ' +
    'ein schwacher Filter hilft nicht. Sonst die Verstärkung verringern oder die Einstellungen für diese Pumpe neu ' +
    'ermitteln.',
  oscillation_ended: 'Der Volumenstrom schwingt nicht mehr.',
  off_setpoint:
    'Der Volumenstrom erreicht bei einer Drehzahl von {percent} % den Sollwert nicht: Die Leitung ist abgesperrt, ' +
    'oder Zulauf, Pumpe oder Durchflussmesser ist schuld. Zuerst die Pumpe anhalten, gegen Wiedereinschalten sichern ' +
    'und den Druck ablassen, auch Druckspeicher entlasten. Dann danach suchen.',
  at_setpoint: 'Der Volumenstrom liegt wieder am Sollwert.',
};

export const germanAcceptance: AcceptanceTexts = {
  counted: 'Gezählt: {text}.',
  accepted: 'Das Ziel ist nachgewiesen: {text}.',
  after_acceptance: 'Das Ziel ist schon nachgewiesen: Diese Messung ändert nichts.',
  restarted: {
    worse_than_target: 'Die Reihe endet: Diese Messung ist schlechter als das Ziel ({text}).',
    counts_stuck: 'Die Reihe endet: Die Zählwerte ändern sich nicht mehr, sind also nicht gemessen.',
    gap_too_long: 'Die Reihe endet: zu lange seit der letzten guten Messung.',
    volume_counter_ran_back: 'Die Reihe endet: Der Volumenzähler lief zurück.',
    clock_set_back: 'Die Reihe endet: Die Uhr wurde zurückgestellt.',
  },
  not_counted: {
    bad: 'Nicht gezählt, die Messung ist ungültig. {findings}',
    uncertain: 'Nicht gezählt, die Messung ist unsicher. {findings}',
    worse_than_target: 'Nicht gezählt: schlechter als das Ziel ({text}).',
    not_known: 'Nicht gezählt: Bei {missing} ist nichts bekannt.',
    few_counted: 'Nicht gezählt: zu wenige Partikel, um bei {missing} sicher zu sein.',
    no_particle_yet:
      'Nicht gezählt: Noch keine Messung dieses Nachweises hat ein Partikel gezeigt, als wäre der Zähler ' +
      'ausgefallen, trocken oder nicht angeschlossen. Zuerst die Pumpe anhalten, gegen Wiedereinschalten sichern und ' +
      'den Druck ablassen, auch Druckspeicher entlasten. Dann Messzelle und Leitung des Zählers prüfen, ob Öl durch ' +
      'ihn fließt und ob er eine Probe zählt, die sicher Partikel enthält. Für so sauberes Öl lässt sich diese ' +
      'Prüfung in den Grenzen abschalten.',
    no_code: 'Nicht gezählt: {reason}.',
    not_newer: 'Nicht gezählt: nicht neuer als die letzte Messung.',
    overlapping: 'Nicht als weitere gezählt: Ihre Zählzeit deckt sich größtenteils mit der letzten.',
  },
  wanting: {
    sentence: 'Noch nachzuweisen: {parts}.',
    reading: '{number} Messung',
    readings: '{number} Messungen',
    minutes: '{number} min',
    litres: '{number} L',
  },
  unproved: {
    beside_others:
      'Zeit und Volumen seit der letzten zählen nicht: Dazwischen liegt eine Messung, die nicht gezählt wurde.',
    long_gap: 'Die Zeit seit der letzten zählt nicht: Sie ist zu lang.',
    less_by_host:
      'Die Zeit seit der letzten zählt höchstens zum Teil: Nach der Uhr des Empfängers ist weniger vergangen.',
    volume_stood: 'Die Zeit seit der letzten zählt nur, wenn der Volumenzähler bald weiterläuft: Er stand.',
    volume_leapt: 'Das Volumen seit der letzten zählt nicht: Es ist mehr, als die Pumpe fördern kann.',
  },
};
