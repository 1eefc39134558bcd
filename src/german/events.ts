/** Events in German. */
import type { EventTexts } from '../report/index.ts';

/** Subjects and sentences of events, and what is added to them. */
export const germanEvents: EventTexts = {
  words: {
    raised: { subject: '{alarm}: Alarm', sentence: '{figure}: {value}, Grenzwert {setpoint} {side}.' },
    re_alarmed: { subject: '{alarm}: Alarm steht weiter an', sentence: '{figure}: {value}, Grenzwert {setpoint}.' },
    returned: { subject: '{alarm}: wieder im Normalzustand', sentence: 'Der Wert verletzt den Grenzwert nicht mehr.' },
    acknowledged: {
      subject: '{alarm}: Alarm quittiert',
      sentence: 'Jemand hat ihn gesehen; die Ursache kann noch bestehen.',
    },
    reset: { subject: '{alarm}: Alarm zurückgesetzt', sentence: 'Er steht nicht mehr an.' },
    shelved: { subject: '{alarm}: Alarm zurückgestellt', sentence: 'Er wird bis {until} nicht gemeldet.' },
    unshelved: { subject: '{alarm}: Alarm nicht mehr zurückgestellt', sentence: 'Er wird wieder gemeldet.' },
    suppressed: {
      subject: '{alarm}: Alarm unterdrückt',
      sentence: 'In der Betriebsart {mode} wird er nicht gemeldet.',
    },
    unsuppressed: {
      subject: '{alarm}: Alarm nicht mehr unterdrückt',
      sentence: 'Die Betriebsart der Maschine unterdrückt ihn nicht mehr.',
    },
    removed_from_service: {
      subject: '{alarm}: Alarm außer Betrieb',
      sentence: 'Er wird nicht gemeldet, bis er wieder in Betrieb ist.',
    },
    returned_to_service: { subject: '{alarm}: Alarm wieder in Betrieb', sentence: 'Er wird wieder gemeldet.' },
    signal_stale: {
      subject: '{alarm}: nichts zu beurteilen',
      sentence: '{figure}: kein gültiger Wert seit {since}. Der Alarm bleibt, wie er ist.',
    },
    signal_restored: { subject: '{alarm}: wieder beurteilt', sentence: '{figure}: Es kommt wieder ein gültiger Wert.' },
    signal_bad: {
      subject: '{alarm}: Signal ungültig',
      sentence: 'Der Wert ist ungültig: Der Alarm beurteilt ihn nicht.',
    },
    signal_good: { subject: '{alarm}: Signal wieder gültig', sentence: 'Der Alarm beurteilt seinen Wert wieder.' },
    chattering: { subject: '{alarm}: Alarm flattert', sentence: 'Hysterese und Verzögerung prüfen.' },
    chattering_ended: { subject: '{alarm}: Flattern beendet', sentence: 'Er kommt und geht nicht mehr.' },
    dropped: {
      subject: '{alarm}: Alarm entfallen',
      sentence: 'Die Konfiguration enthält ihn nicht mehr oder mit anderer Bedeutung; sein Zustand war: {state}.',
    },
    clock_set_back: {
      subject: '{alarm}: Zeit zurückgestellt',
      sentence: 'Von {from} zurück auf {to}: Takt oder Befehl lag weit voraus, oder Messungen kamen spät.',
    },
    refused: { subject: '{alarm}: abgelehnt', sentence: 'Befehl oder Messung ohne Wirkung: {reason}.' },
    late: { subject: 'Messung verspätet', sentence: 'Die Messung vom {reading} kam nach einer neueren.' },
    too_late: { subject: 'Messung zu spät', sentence: 'Die Messung vom {reading} ist so alt, dass sie nicht zählt.' },
    repeated: { subject: 'Messung doppelt', sentence: 'Die Messung vom {reading} kam noch einmal; sie zählt einmal.' },
    contradicted: {
      subject: 'Messungen widersprechen sich',
      sentence:
        'Eine weitere Messung vom {reading} kam mit anderen Werten. Wiederholt sich das, ist eine Uhr stehen ' +
        'geblieben.',
    },
    set_aside: {
      subject: 'Messung zurückgehalten',
      sentence: 'Ihre Zeit liegt weit voraus: {reading}. Die nächsten Messungen zeigen, ob die Uhr gestellt wurde.',
    },
    code_unused: {
      subject: 'Klasse nicht gelesen',
      sentence: 'Die Messung vom {reading} bringt Klassen, die keine Tabelle der Konfiguration liest: {codes}.',
    },
    counts_unused: {
      subject: 'Zählwerte nicht gelesen',
      sentence:
        'Nichts in der Konfiguration liest die Zählwerte vom {reading}: Größen und deren Bezug (sizing) prüfen.',
    },
    sizing_changed: {
      subject: 'Zählwerte mit anderem Größenbezug',
      sentence:
        'Die Zählwerte vom {reading} haben einen anderen Größenbezug (sizing) als die davor: Alarme und Trends bei ' +
        'einer Größe, die beide haben, gelten nun anderen Partikeln.',
    },
    readings_stale: { subject: 'Keine gültigen Messungen', sentence: 'Seit {since} kam keine.' },
    readings_restored: { subject: 'Wieder gültige Messungen', sentence: 'Sie werden beurteilt.' },
    quality_bad: {
      subject: '{figure}: ungültig',
      sentence: 'Kein Alarm beurteilt diesen Wert, bis er wieder gültig ist.',
    },
    quality_restored: { subject: '{figure}: wieder gültig', sentence: 'Alarme beurteilen diesen Wert wieder.' },
    finding_came: {
      subject: 'Befund: {finding}',
      sentence: 'Die Messungen zeigen ihn; es wird gemeldet, wenn er nicht mehr besteht.',
    },
    finding_gone: { subject: 'Befund besteht nicht mehr: {finding}', sentence: 'Die Messungen zeigen ihn nicht mehr.' },
    target_stale: {
      subject: '{figure}: Ziel nicht beurteilt',
      sentence: 'Seit {since} hat keine Messung gezeigt, ob das Ziel eingehalten ist.',
    },
    target_restored: {
      subject: '{figure}: Ziel wieder beurteilt',
      sentence: 'Messungen zeigen wieder, ob es eingehalten ist.',
    },
    clock_set: {
      subject: 'Zeitsprung',
      sentence:
        'Von {from} zurück auf {to}: Die Uhr wurde zurückgestellt, ältere Messungen kamen auf einmal, ' +
        'oder Takt oder Befehl ging vor.',
    },
    rejected: {
      subject: 'Eingabe abgewiesen',
      sentence: '{parameter}: {received} ist dort nicht zulässig. {expected} Die Eingabe wurde nicht verwendet.',
    },
    configured: {
      subject: 'Konfiguration {configuration}',
      sentence: 'Sie gilt. Alarme und beobachtete Größen: {kept} wie bisher, {dropped} entfallen, {added} neu.',
    },
    clock_kept: {
      subject: 'Uhr läuft weiter wie bisher',
      sentence: 'Nur zurückgehaltene Messungen hatten eine falsche Zeit.',
    },
    change_found: {
      subject: '{followed}: Niveau {direction}',
      sentence: '{figure}: zuvor etwa {before}; seit etwa {since} etwa {after}.',
    },
    relearning: {
      subject: '{followed}: Normalwert wird neu ermittelt',
      sentence: '{figure}: Die nächsten Messungen zeigen, was normal ist.',
    },
    relearn_refused: {
      subject: '{followed}: nicht neu gelernt',
      sentence: '{figure} wird schon seit {since} gelernt.',
    },
    change_unjudged: {
      subject: '{followed}: Änderungen nicht erkennbar',
      sentence:
        '{figure}: Zu wenige Zeitabschnitte haben einen Wert. Messungen fehlen, oder wöchentliche brauchen längere ' +
        'Abschnitte.',
    },
    change_judged: {
      subject: '{followed}: Änderungen wieder erkennbar',
      sentence: '{figure}: Genügend Zeitabschnitte haben einen Wert.',
    },
  },
  wasRaised: '{alarm}: Alarm war ausgelöst',
  latched: {
    subject: '{alarm}: Alarm selbsthaltend bis zum Zurücksetzen',
    sentence: 'Der Wert verletzt den Grenzwert nicht mehr; der Alarm bleibt, bis er zurückgesetzt wird.',
  },
  crept: {
    subject: '{followed}: Niveau schleichend {direction}',
    sentence:
      '{figure}: zuvor etwa {before}; der Mittelwert der letzten Zeit ist {after}. ' +
      'Wann es begann, ist nicht feststellbar.',
  },
  unsaid: {
    subject: '{alarm}: Alarm nicht mehr unterdrückt',
    sentence: 'Seit {since} kam keine Betriebsart der Maschine: Er wird wieder gemeldet.',
  },
  ahead: {
    subject: 'Zeitsprung',
    sentence:
      'Die Zeit der Messungen sprang von {from} auf {to}: Die Uhr wurde vorgestellt, oder dazwischen kam keine.',
  },
  details: {
    time: 'Zeit: {time} ({zone}).',
    timeUnknown: 'Zeit: unbekannt.',
    priority: 'Priorität: {priority}.',
    note: 'Hinweis: „{note}“.',
    mean: 'Der Mittelwert gilt für die letzten {within}.',
    times: 'Inzwischen {number}-mal fällig.',
    standing: 'Stand nach einer Zeit ohne Meldungen.',
    state: 'Zustand: {state}.',
    silentRaises: 'Inzwischen nicht gemeldete Alarme: {number}.',
    stale: 'Sein Wert war seit {since} nicht mehr gültig.',
    by: 'Von: {by}.',
    why: 'Grund: {why}.',
    findings: 'Befund: {findings}.',
    byInstrument: 'Das Gerät selbst meldet es.',
    beyond: 'Sie verletzt den Grenzwert von: {alarms}.',
    judged: 'Zurückgehalten und jetzt von den Alarmen beurteilt: {number}.',
    lost: 'Zurückgehalten und von keinem Alarm beurteilt: {number}.',
  },
  priorities: { low: 'niedrig', medium: 'mittel', high: 'hoch', urgent: 'dringend' },
  states: {
    normal: 'normal',
    unacknowledged_alarm: 'Alarm, nicht quittiert',
    acknowledged_alarm: 'Alarm, quittiert',
    returned_to_normal_unacknowledged: 'wieder normal, nicht quittiert',
    latched_unacknowledged: 'selbsthaltend, nicht quittiert',
    latched_acknowledged: 'selbsthaltend, quittiert',
    shelved: 'zurückgestellt',
    suppressed_by_design: 'unterdrückt',
    out_of_service: 'außer Betrieb',
  },
  reasons: {
    nothing_to_acknowledge: 'es gibt nichts zu quittieren',
    older_than_alarm: 'er wurde gegeben, bevor der Alarm zuletzt ausgelöst wurde',
    older_than_return: 'er wurde gegeben, bevor der Messwert wieder im Rahmen war',
    not_latched: 'der Alarm ist nicht selbsthaltend',
    condition_stands: 'seine Ursache besteht noch',
    not_shelved: 'der Alarm ist nicht zurückgestellt',
    shelf_over: 'er kam erst, als seine Zeit vorüber war',
    older_than_last_command: 'ein zugleich oder später gegebener hat schon eine Stille begonnen oder beendet',
    already_shelved: 'der Alarm ist schon zurückgestellt',
    longer_than_allowed: 'die verlangte Zeit ist zu lang, erlaubt sind höchstens {limit}',
    already_out_of_service: 'der Alarm ist schon außer Betrieb',
    not_out_of_service: 'der Alarm ist nicht außer Betrieb',
    older_than_last_reading: 'die Zeit liegt vor der letzten Messung',
  },
  directions: { up: 'gestiegen', down: 'gesunken' },
  changes: {
    rise: '{figure}: Anstieg um {value} innerhalb von {within}, Grenzwert {setpoint}.',
    fall: '{figure}: Abfall um {value} innerhalb von {within}, Grenzwert {setpoint}.',
  },
  settled: {
    rise: {
      subject: '{alarm}: Anstieg wieder innerhalb des Grenzwerts',
      sentence:
        'Was vorher anstieg, kann noch so hoch stehen. ' +
        '{figure}: Anstieg um {value} innerhalb von {within}, Grenzwert {setpoint}.',
    },
    fall: {
      subject: '{alarm}: Abfall wieder innerhalb des Grenzwerts',
      sentence:
        'Was vorher abfiel, kann noch so tief stehen. ' +
        '{figure}: Abfall um {value} innerhalb von {within}, Grenzwert {setpoint}.',
    },
  },
  percentagePoints: { one: '{number} Prozentpunkt', more: '{number} Prozentpunkte' },
  sides: { beyond: 'überschritten', below: 'unterschritten' },
  figures: {
    counts: { name: 'Zählwerte', value: '{value}' },
    mlPerMin: { name: 'Volumenstrom', value: '{value} mL/min' },
    kPa: { name: 'Druck', value: '{value} kPa' },
    celsius: { name: 'Temperatur', value: '{value} °C' },
    mm2PerS: { name: 'Viskosität', value: '{value} mm²/s' },
    waterSaturation: { name: 'Wassersättigung', value: '{percent}' },
  },
  waterSaturationAt: { name: 'Wassersättigung bei {celsius} °C', value: '{percent}' },
  perMlAt: { name: 'Partikel ab {size} {sizeUnit}', value: '{value} je mL' },
  scaleNumberAt: { name: 'Ordnungszahl bei {size} {sizeUnit}', value: '{value}' },
  continuousScaleNumberAt: { name: 'Stetige Ordnungszahl bei {size} {sizeUnit}', value: '{value}' },
  code: {
    name: 'Klasse ({table})',
    beyond: '{figure}, Klassen über {setpoint}: {number}.',
    within: '{figure}, Klassen unter {setpoint}: {number}.',
  },
  other: { name: '{name}', value: '{value}' },
  findingNames: {
    no_flow: 'kein Durchfluss',
    flow_low: 'Volumenstrom zu klein',
    flow_high: 'Volumenstrom zu groß',
    pressure_low: 'Druck zu niedrig',
    viscosity_high: 'Viskosität zu hoch',
    temperature_low: 'Öl zu kalt',
    temperature_high: 'Öl zu heiß',
    few_particles: 'wenige Partikel',
    counts_rise_with_size: 'Zählwerte steigen mit der Größe',
    above_coincidence_limit: 'über der Koinzidenzgrenze',
    free_water_likely: 'wahrscheinlich freies Wasser',
    cooled_below_saturation: 'unter die Sättigung abgekühlt',
    flat_size_distribution: 'flache Größenverteilung (Luft, Tropfen oder grober Verschleiß)',
    values_stuck: 'Werte eingefroren',
    channels_stuck: 'Kanäle eingefroren',
    line_not_flushed: 'Leitung nicht gespült',
    clock_backwards: 'Uhr ging zurück',
    flagged_by_instrument: 'vom Gerät gemeldet oder nicht lesbar',
    code_disagrees: 'Klasse passt nicht zu den Zählwerten',
    pressure_high: 'Druck zu hoch',
    flow_pulsating: 'Volumenstrom pulsiert',
    volume_disagrees: 'Volumen passen nicht zusammen',
    channels_equal: 'Kanäle gleich',
    viscosity_off_line: 'Viskosität nicht die des Öls',
    start_up: 'Anlauf',
    standing_oil: 'stehendes Öl',
    calibration_overdue: 'Kalibrierung überfällig',
    clock_ahead: 'Uhr geht vor',
    count_missing: 'Zählwert fehlt',
    code_unreadable: 'Klasse nicht lesbar',
    code_rises_with_size: 'Klasse steigt mit der Größe',
    no_particles: 'keine Partikel',
    channel_empty: 'Kanal leer',
    figure_implausible: 'Messwert unplausibel',
    flow_unknown: 'Volumenstrom unbekannt',
  },
  unknownTime: 'unbekannten Zeitpunkt',
};
