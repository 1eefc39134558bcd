/** Flow control and the proof of a flush in German. */
import type { AcceptanceTexts } from '../acceptance/index.ts';
import type { FlowControlTexts } from '../sampling/index.ts';

export const germanFlowControl: FlowControlTexts = {
  signal_lost: {
    manual: 'Das Signal des Volumenstroms fehlt; die Drehzahl ist von Hand gestellt.',
    starting: 'Es gibt kein Signal des Volumenstroms: Die Pumpe wird nicht gestartet.',
    other: 'Das Signal des Volumenstroms fehlt: Drehzahl gehalten bei {percent} %.',
    below:
      'Der Durchflussmesser zeigt {mlPerMin} mL/min: Seine Leitung ist unterbrochen, oder er ist verkehrt ' +
      'angeschlossen oder eingebaut.',
  },
  signal_back: 'Das Signal des Volumenstroms ist wieder da.',
  stopped:
    'Die Pumpe ist angehalten, von Hand oder weil ihr Antrieb nicht bereit ist, und bleibt es, bis sie gestartet ' +
    'wird.',
  started: 'Die Pumpe läuft an.',
  start_refused: {
    no_signal:
      'Es gibt kein Signal des Volumenstroms: Die Pumpe wird nicht gestartet. War sie nicht angehalten, ' +
      'läuft sie von selbst an, sobald es da ist.',
    too_thick:
      'Das Öl ist dicker, als der Zulauf es verträgt: Die Pumpe wird nicht gestartet. War sie nicht angehalten, ' +
      'läuft sie von selbst an, sobald das Öl dünner ist.',
    not_ready: 'Der Antrieb ist nicht bereit: Die Pumpe wird nicht gestartet.',
  },
  input_unread: 'Die Pumpe ist angehalten; {parameter} desselben Schritts war nicht zu lesen.',
  to_manual: 'Die Drehzahl wird von Hand gestellt.',
  to_automatic: 'Die Drehzahl wird nach dem Volumenstrom gestellt.',
  viscosity_outside: 'Die Viskosität liegt außerhalb der Punkte der Inbetriebnahme: Der äußerste Punkt gilt.',
  viscosity_inside: 'Die Viskosität liegt wieder innerhalb der Punkte der Inbetriebnahme.',
  oscillation:
    'Der Volumenstrom schwingt um den Sollwert. Rauscht sein Signal, für jeden Schritt über mehr Messwerte mitteln; ' +
    'ein schwacher Filter hilft nicht. Sonst die Verstärkung verringern oder die Einstellungen für diese Pumpe neu ' +
    'ermitteln.',
  oscillation_ended: 'Der Volumenstrom schwingt nicht mehr.',
  off_setpoint:
    'Der Volumenstrom erreicht bei einer Drehzahl von {percent} % den Sollwert nicht: Die Leitung ist abgesperrt, ' +
    'oder es liegt an Zulauf, Pumpe oder Durchflussmesser. Zuerst die Pumpe anhalten, gegen Wiedereinschalten ' +
    'sichern und den Druck ablassen, auch Druckspeicher entlasten. Dann danach suchen.',
  at_setpoint: 'Der Volumenstrom liegt wieder am Sollwert.',
  signal_frozen:
    'Das Signal des Volumenstroms rührt sich nicht, obwohl die Drehzahl sich geändert hat: Der Durchflussmesser ' +
    'steht, die Leitung ist abgesperrt, oder die Pumpe saugt nicht. Die Drehzahl geht dahin zurück, wo es sich ' +
    'zuletzt rührte. Zuerst die Pumpe anhalten, gegen Wiedereinschalten sichern und den Druck ablassen, auch ' +
    'Druckspeicher entlasten. Dann danach suchen.',
  signal_frozen_ended: 'Das Signal des Volumenstroms rührt sich wieder, oder die Pumpe steht.',
  speed_at_limit:
    'Die Drehzahl steht seit langem an ihrer Grenze von {percent} %: Die Pumpe hat nichts mehr, um den ' +
    'Volumenstrom zu halten. Die Leitung kann abgesperrt oder ab sein, oder es liegt an Zulauf, Pumpe, Antrieb oder ' +
    'Durchflussmesser. Zuerst die Pumpe anhalten, gegen Wiedereinschalten sichern und den Druck ablassen, auch ' +
    'Druckspeicher entlasten. Dann danach suchen.',
  speed_off_limit: 'Die Drehzahl liegt nicht mehr an ihrer Grenze.',
  no_flow:
    'Die Pumpe läuft von Hand mit {percent} %, und seit langem fließt kein Öl: Sie läuft trocken, die Leitung ist ' +
    'abgesperrt, oder es liegt am Durchflussmesser. Zuerst die Pumpe anhalten, gegen Wiedereinschalten sichern und ' +
    'den Druck ablassen, auch Druckspeicher entlasten. Dann danach suchen.',
  no_flow_ended: 'Es fließt wieder Öl, oder die Drehzahl ist nicht mehr von Hand gestellt.',
};

export const germanAcceptance: AcceptanceTexts = {
  counted: 'Gewertet: {text}.',
  accepted: 'Das Ziel ist nachgewiesen; letzte Messung: {text}.',
  codesAlone: 'Der Nachweis beruht auf Klassen allein, an denen ein eingefrorener Zähler nicht zu erkennen ist.',
  after_acceptance: 'Das Ziel ist schon nachgewiesen: Diese Messung ändert nichts.',
  worse_after_acceptance:
    'Das Ziel war nachgewiesen, aber diese Messung ist schlechter ({text}): Von diesem Öl sagt das Protokoll nichts.',
  contradicted:
    'Dem Nachweis wird widersprochen: Diese verspätete Messung aus seiner Zeit ist schlechter als das Ziel ({text}). ' +
    'Einen neuen Nachweis beginnen.',
  restarted: {
    worse_than_target: 'Die Messreihe endet: Diese Messung ist schlechter als das Ziel ({text}).',
    counts_stuck: 'Die Messreihe endet: Die Zählwerte ändern sich nicht mehr, sind also nicht gemessen.',
    gap_too_long: 'Die Messreihe endet: zu lange seit der letzten guten Messung.',
    volume_counter_ran_back: 'Die Messreihe endet: Der Volumenzähler lief zurück.',
    clock_set_back: 'Die Messreihe endet: Die Uhr wurde zurückgestellt.',
  },
  not_counted: {
    bad: 'Nicht gewertet, die Messung ist ungültig. {findings}',
    uncertain: 'Nicht gewertet, die Messung ist unsicher. {findings}',
    worse_than_target: 'Nicht gewertet: schlechter als das Ziel ({text}).',
    not_known: 'Nicht gewertet: Bei {missing} ist nichts bekannt.',
    flush_not_shown:
      'Nicht gewertet: Noch zeigt nichts, dass so viel Öl durch die Leitung geflossen ist, wie die Grenzen ' +
      'verlangen. Weiterlaufen lassen und mit jeder Messung den Volumenstrom angeben, oder was geflossen ist ' +
      '(flushedMl).',
    few_counted: 'Nicht gewertet: zu wenige Partikel, um bei {missing} sicher zu sein.',
    few_in_all:
      'Nicht gewertet: insgesamt weniger als 20 Partikel, wie von einem Zähler, der ausgefallen, dunkel, trocken ' +
      'oder nicht angeschlossen ist. Ein größeres Volumen zählen. Bleiben es so wenige: Zuerst die Pumpe ' +
      'anhalten, gegen Wiedereinschalten sichern und den Druck ablassen, auch Druckspeicher entlasten. Dann ' +
      'Messzelle und Leitung des Zählers prüfen, ob Öl durch ihn fließt und ob er eine Probe zählt, die sicher ' +
      'Partikel enthält. Für so sauberes Öl lässt sich diese Prüfung in den Grenzen abschalten.',
    no_code:
      'Nicht gewertet: Für das Ziel ergibt sich keine Klasse. Die Messung hat weder die Zählwerte, die seine Tabelle ' +
      'braucht, noch eine Klasse nach ihr.',
    not_newer: 'Nicht gewertet: nicht neuer als die letzte Messung.',
    before_worse:
      'Nicht gewertet: älter als eine Messung, die schlechter war als das Ziel, wie alte Messungen, die verspätet ' +
      'kommen. Wurde die Uhr des Zählers zurückgestellt: einen neuen Nachweis beginnen, oder mit jeder Messung ' +
      'übergeben, wann sie eintraf (receivedAt).',
    overlapping: 'Nicht als weitere gewertet: Ihre Zählzeit deckt sich größtenteils mit der letzten.',
    same_as_last:
      'Nicht als weitere gewertet: Ihre Zählwerte sind die der vorigen Messung, wie bei einer Zählung, die noch ' +
      'einmal ausgelesen wurde.',
  },
  wanting: {
    sentence: 'Noch nachzuweisen: {parts}.',
    reading: '{number} Messung',
    readings: '{number} Messungen',
    minutes: '{number} min',
    litres: '{number} L',
  },
  unprovable: {
    least:
      'Um {columns} nachzuweisen, braucht eine Messung mindestens {volume} mL Öl, auch wenn sie kein Partikel zählt.',
    never:
      'Keine Zählung kann {columns} nachweisen, mit wie viel Öl auch immer: weglassen, und in der Konfiguration die ' +
      'anderen Spalten nennen.',
  },
  unproved: {
    beside_others:
      'Zeit und Volumen seit der letzten gewerteten Messung zählen nicht: Dazwischen liegt eine Messung, die nicht ' +
      'gewertet wurde.',
    long_gap: 'Die Zeit seit der letzten Messung zählt nicht: Sie ist zu lang.',
    gap_taken_back: 'Was eine frühere Pause nachgewiesen hatte, zählt nicht mehr: Neben den anderen ist sie zu lang.',
    counts_equal:
      'Alle Messungen haben gleiche Zählwerte, wie die eines eingefrorenen Zählers: Noch fehlt eine, die abweicht, ' +
      'oder so viele, dass es sich zeigt.',
    less_by_host:
      'Die Zeit seit der letzten Messung zählt höchstens zum Teil: Nach der Uhr des Empfängers ist weniger vergangen.',
    volume_stood: 'Die Zeit seit der letzten Messung zählt nur, wenn der Volumenzähler bald weiterläuft: Er stand.',
    volume_leapt: 'Das Volumen seit der letzten Messung zählt nicht: Es ist mehr, als die Pumpe fördern kann.',
  },
};
