/** Findings in German. */
import type { FindingTexts } from '../reading/index.ts';

export const germanFindings: FindingTexts['findings'] = {
  no_flow:
    'Durch den Sensor fließt kein Öl oder nicht mehr, als ein Durchflussmesser im Stillstand zeigt: Die Zählung sagt ' +
    'nichts über das Öl. Zuerst die Pumpe anhalten, gegen Wiedereinschalten sichern und den Druck ablassen, auch ' +
    'Druckspeicher entlasten. Dann suchen, was die Leitung absperrt.',
  flow_low:
    'Der Volumenstrom beträgt {value} mL/min, weniger als {limit}. Kaltes Öl fließt langsamer: eine Pumpe zur ' +
    'Probenahme anhalten, bis es wärmer ist, wenn ihr Zulauf so dickes Öl nicht verträgt. Nur wo Saugdruck und ' +
    'Druckbegrenzungsventil es zulassen, eine Pumpe schneller oder ein Stromventil weiter stellen. Hilft das nicht ' +
    'oder bestimmt eine Drossel den Volumenstrom: die Pumpe anhalten, gegen Wiedereinschalten sichern und den Druck ' +
    'ablassen, auch Druckspeicher entlasten; dann suchen, was das Öl aufhält.',
  flow_high:
    'Der Volumenstrom beträgt {value} mL/min, mehr als {limit}. Eine Pumpe lässt sich langsamer stellen, ein ' +
    'Stromventil enger. Bestimmt eine Drossel den Volumenstrom, zuerst die Pumpe anhalten, gegen Wiedereinschalten ' +
    'sichern und den Druck ablassen, auch Druckspeicher entlasten; dann dort, wo die Leitung von der Druckleitung ' +
    'abgeht, eine engere einbauen. Nie eine Pumpe ohne Druckbegrenzungsventil drosseln.',
  pressure_low:
    'Der Druck im Sensor beträgt {value} kPa, weniger als {limit}: Luftblasen können im Öl bleiben und werden als ' +
    'Partikel gezählt. Die Leitung hinter dem Sensor kann undicht oder ab sein: aus der Entfernung nach Öl auf dem ' +
    'Boden sehen. Dünnes Öl baut weniger Druck auf. Luft tritt durch eine undichte Saugleitung oder aus Schaum im ' +
    'Behälter ein. Bevor jemand die Leitung anfasst: die Pumpe anhalten, gegen Wiedereinschalten sichern und den ' +
    'Druck ablassen, auch Druckspeicher entlasten.',
  viscosity_high:
    'Die Viskosität, gemessen oder aus der Temperatur berechnet, beträgt {value} mm²/s, mehr als {limit}: warten, ' +
    'bis das Öl wärmer ist. Eine Pumpe zur Probenahme so lange anhalten, wenn ihr Zulauf so dickes Öl nicht verträgt.',
  temperature_low:
    'Das Öl hat {value} °C, weniger als die {limit} °C, für die der Sensor gebaut ist: warten, bis das Öl wärmer ' +
    'ist. Eine Pumpe zur Probenahme so lange anhalten, wenn ihr Zulauf so dickes Öl nicht verträgt.',
  temperature_high:
    'Das Öl hat {value} °C, mehr als die {limit} °C, für die der Sensor gebaut ist. Die Pumpe der Messleitung ' +
    'anhalten, wenn diese eine eigene hat, oder am Abgang von der Maschine ein für den Druck ausgelegtes Ventil ' +
    'schließen. Fehlt beides, die Maschine nach ihrer eigenen Anweisung stillsetzen: Nur ihre Pumpe anzuhalten kann ' +
    'die Kühlung abstellen oder eine Last fallen lassen. Die Leitung nicht anfassen, solange sie heiß ist. Den Druck ' +
    'ablassen und das Öl abkühlen lassen. Ein falsches Thermometer sieht ebenso aus: mit einem zweiten vergleichen.',
  few_particles:
    'Bei {sizes} wurden weniger als {limit} Partikel gezählt ({value} bei {lastSize}): länger zählen oder die ' +
    'Ordnungszahl mit >= kennzeichnen.',
  counts_rise_with_size:
    '{value} Partikel je mL ab {lastSize}, aber nur {limit} ab {firstSize}, die jene einschließen: Ein Kanal des ' +
    'Zählers ist falsch.',
  above_coincidence_limit:
    'Der Zähler sah {value} Partikel je mL, mehr als seine Koinzidenzgrenze von {limit}: Das Öl ist mindestens so ' +
    'schmutzig, und die Größen stimmen nicht. Eine Flaschenprobe verdünnen; online einen Sensor mit höherer Grenze ' +
    'verwenden: Ein kleinerer Volumenstrom macht das Öl nicht sauberer. Fallen die Zählwerte von hier aus, obwohl ' +
    'niemand das Öl gereinigt hat, sieht der Zähler vielleicht vor lauter Tropfen oder Schmutz nichts mehr.',
  free_water_likely:
    'Das Öl ist zu {valuePercent} % mit Wasser gesättigt (Grenze {limitPercent} %): Wahrscheinlich werden Tropfen ' +
    'als Partikel gezählt; das Öl trocknen.',
  cooled_below_saturation:
    'Das Öl war nur {value} °C warm, kälter als die {limit} °C, bei denen es mit seinem Wasser gesättigt ist: ' +
    'Tropfen können geblieben sein und als Partikel zählen; warm laufen lassen und erneut zählen.',
  flat_size_distribution:
    'Von {firstSize} bis {lastSize} fallen die Zählwerte mit der Steigung {value}; feiner Schmutz fällt mit {limit} ' +
    'oder mehr. Es können Luftblasen, Wassertropfen oder grober Verschleiß sein, die sich in der Zählung gleichen: ' +
    'eine Probe ansehen, nach Schaum im Behälter und nach dem Wasser sehen.',
  values_stuck:
    'Die letzten {value} Messungen zeigen bei {figure} bis zur letzten Stelle dasselbe; {limit} kämen kaum zufällig ' +
    'vor: Der Sensor oder seine Verbindung liefert keine neuen Werte.',
  channels_stuck:
    'Die letzten {value} Messungen haben bei {sizes} dieselben Zählwerte, während andere sich ändern; {limit} kämen ' +
    'kaum zufällig vor: Ein Kanal des Zählers liefert keine neuen Werte.',
  line_not_flushed:
    'Erst {value} mL sind durch die Leitung geflossen, weniger als {limit}: Sie enthält noch altes Öl; länger ' +
    'laufen lassen.',
  clock_backwards:
    'Diese Messung ist {secondsBefore} s älter als eine davor: die Uhr des Geräts stellen; Raten und Verläufe über ' +
    'diesen Zeitpunkt sagen nichts aus.',
  flagged_by_instrument:
    'Das Gerät meldet, dass {figure} ungültig ist, oder sendet Unlesbares: die Meldungen am Gerät prüfen.',
  code_disagrees:
    'Die mitgelieferte Klasse liegt {value} Klassen neben der aus den Zählwerten, die gelten: Größen, Kalibrierung ' +
    'und Ausgabe der Norm im Gerät vergleichen.',
  pressure_high:
    'Der Druck im Sensor beträgt {value} kPa, mehr als die {limit}, die er verträgt. Die Maschine nach ihrer eigenen ' +
    'Anweisung stillsetzen, gegen Wiedereinschalten sichern und den Druck ablassen, auch Druckspeicher entlasten. ' +
    'Dann am Sensor ein Druckbegrenzungsventil mit freiem Abfluss zum Behälter einbauen oder einen für den Druck der ' +
    'Leitung ausgelegten Sensor. Eine Drossel allein schützt nicht: Wo kein Öl fließt, baut sie keinen Druck ab.',
  flow_pulsating:
    'Der Volumenstrom schwankt von Messung zu Messung um {valuePercent} % (Grenze {limitPercent} %): Das gezählte ' +
    'Volumen ist nicht bekannt. Nach Luft in der Saugleitung, einer verschlissenen Pumpe oder einem schwingenden ' +
    'Ventil suchen. Bevor jemand die Leitung anfasst: die Pumpe anhalten, gegen Wiedereinschalten sichern und den ' +
    'Druck ablassen, auch Druckspeicher entlasten.',
  volume_disagrees:
    'Der Zähler nennt {value} mL, Volumenstrom und Zeit ergeben {limit} mL: Volumenstrom, Zeit oder Volumen ist ' +
    'falsch. Zum Vergleich mit einem Messglas zuerst die Pumpe anhalten, gegen Wiedereinschalten sichern und den ' +
    'Druck ablassen, auch Druckspeicher entlasten. Den Niederdruck-Rücklauf der Leitung in das Glas führen, nie die ' +
    'Druckseite, und das Ende befestigen. Erst dann laufen lassen, Augen und Haut geschützt.',
  channels_equal:
    'Bei {firstSize} und {lastSize} wurden dieselben {value} Partikel je mL gezählt; etwa {limit} müssten ' +
    'dazwischen liegen: Ein Kanal des Zählers ist falsch.',
  viscosity_off_line:
    'Die Viskosität beträgt {value} mm²/s, das Öl hat bei dieser Temperatur aber {limit}. Ein falsches Thermometer, ' +
    'ein falsches Viskosimeter und ein anderes Fluid sehen gleich aus. Zuerst die Temperatur mit einem zweiten ' +
    'Thermometer vergleichen. Stimmt sie, an einem Niederdruck-Probenahmeventil eine Probe nehmen und ihre ' +
    'Viskosität im Labor messen lassen. Ist sie dort wie für das Öl angegeben, ist das Viskosimeter falsch; sonst ' +
    'ist ein anderes Fluid in der Maschine, oder das Öl hat sich verändert.',
  start_up:
    'Der Durchfluss begann vor {valueSeconds} s oder früher, wann ist nicht bekannt; nach {limitSeconds} s hat sich ' +
    'das Öl beruhigt: warten und erneut zählen.',
  standing_oil:
    'Seit zuerst ein Durchfluss gemeldet wurde, sind etwa {value} mL geflossen, weniger als die {limit}, die die ' +
    'Leitung fasst: Womöglich wird Öl gezählt, das in der Leitung stand; länger laufen lassen.',
  calibration_overdue:
    'Der Zähler wurde vor {valueDays} Tagen kalibriert, vor mehr als {limitDays}: kalibrieren lassen.',
  clock_ahead:
    'Die Messung liegt {valueSeconds} s vor der Uhr des Rechners (Grenze {limitSeconds} s): die Uhr des Geräts ' +
    'stellen.',
  code_unreadable:
    'Was als Klasse kam, {received}, ist in ihrer Tabelle nicht lesbar: die Meldungen am Gerät prüfen, und wie es ' +
    'die Klasse schreibt.',
  code_rises_with_size:
    'Laut Klasse sind es mehr als {value} Partikel je mL ab {lastSize} und höchstens {limit} ab {firstSize}, die ' +
    'jene einschließen: Ein Kanal des Zählers ist falsch, oder die Klasse kam in anderer Reihenfolge.',
  no_particles:
    'In {value} mL Öl wurde kein Partikel gezählt oder kaum eines; sonst sind es in so viel Öl dieser Anlage etwa ' +
    '{limit}: ' +
    'Der Zähler oder seine Lichtquelle ist ausgefallen, oder es kommt kein Öl an. Zuerst die Pumpe anhalten, gegen ' +
    'Wiedereinschalten sichern und den Druck ablassen, auch Druckspeicher entlasten. Dann Zähler und Leitung prüfen.',
  channel_empty:
    'Ab {firstSize} wurde kein Partikel gezählt, mindestens {limit} waren zu erwarten: Ein Kanal des Zählers ist ' +
    'ausgefallen.',
  figure_implausible:
    'Laut Sensor beträgt {figure} {value}, jenseits der {limit}, die ein Öl haben kann: Der Sensor, sein Kabel oder ' +
    'seine Skalierung ist falsch, oder der Wert kam in einer anderen Einheit. Bis ein zweites Messgerät anderes ' +
    'zeigt, das Öl als heiß und unter Druck stehend ansehen. Bevor jemand die Leitung anfasst: die Pumpe anhalten, ' +
    'gegen Wiedereinschalten sichern und den Druck ablassen, auch Druckspeicher entlasten. Dann Sensor und Kabel ' +
    'prüfen.',
  flow_unknown:
    'Der gemeldete Volumenstrom ist nicht brauchbar: Ob Öl durch den Sensor floss, ist nicht bekannt, und gezählt ' +
    'wurde womöglich stehendes Öl. Nachsehen, was der Durchflussmesser sendet.',
  count_missing: 'Bei {sizes} kam kein lesbarer Zählwert: nachsehen, was das Gerät dort sendet.',
};

/** Of a code without counts. */
export const germanOfCodes: FindingTexts['ofCodes'] = {
  few_particles: 'Laut Klasse {received} wurden bei {sizes} weniger als {limit} Partikel gezählt: länger zählen.',
  above_coincidence_limit:
    'Laut Klasse {received} waren es bei {sizes} mehr Partikel, als der Zähler unterscheiden kann: Das Öl ' +
    'ist mindestens so schmutzig, und die Zahlen stimmen nicht. Eine Flaschenprobe verdünnen; online einen Sensor ' +
    'mit höherer Grenze verwenden: Ein kleinerer Volumenstrom macht das Öl nicht sauberer.',
  flat_size_distribution:
    'Nach der Klasse {received} fallen die Zählwerte von {firstSize} bis {lastSize} höchstens mit der Steigung ' +
    '{value}; feiner Schmutz fällt mit {limit} oder mehr. Es können Luftblasen, Wassertropfen oder grober Verschleiß ' +
    'sein: eine Probe ansehen, nach Schaum im Behälter und nach dem Wasser sehen.',
};

/** Of a figure that lies between two. */
export const germanBetween: FindingTexts['between'] = {
  start_up:
    'Der Durchfluss begann seit dem letzten Stillstand, vor {valueSeconds} s bis {mostSeconds} s; nach ' +
    '{limitSeconds} s hat sich das Öl beruhigt: warten und erneut zählen.',
};
