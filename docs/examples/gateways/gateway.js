// A gateway: registers of a sensor in, events out. ES5: it runs on every engine, after motescale.unit.global.js.
// The sensor is invented. Put the registers of your own sensor's data sheet in the place of these.
//   0, 1   particles of 4 µm(c) and larger counted, high word first
//   2, 3   the same of 6 µm(c)
//   4, 5   the same of 14 µm(c)
//   6      volume counted, 0.1 mL
//   7      oil temperature, 0.1 °C, signed
//   8      flow, mL/min
//   9      gauge pressure, kPa
//   10     bit 0: the sensor doubts its counts
var gateway = (function () {
  var prepared = motescale.prepareMonitor({
    codes: [{ table: motescale.iso4406, target: '18/16/13' }],
    alarms: [
      { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14', onDelayMs: 1800000 },
      { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, deadband: 3, onDelayMs: 600000 }
    ],
    staleAfterMs: 3600000
  });
  var state = motescale.startMonitor(prepared);

  // 16 bits with a sign; the next 32 bits without one
  function signed(word) {
    return word < 32768 ? word : word - 65536;
  }
  function long(words, at) {
    return words[at] * 65536 + words[at + 1];
  }

  function readingOf(time, words) {
    return {
      time: time,
      celsius: signed(words[7]) / 10,
      mlPerMin: words[8],
      kPa: words[9],
      qualities: words[10] % 2 === 1 ? { counts: 'uncertain' } : {}
    };
  }
  function countsOf(words) {
    return motescale.cumulativeCounts(
      { 4: long(words, 0), 6: long(words, 2), 14: long(words, 4) },
      { volumeMl: words[6] / 10 }
    );
  }

  // What cannot be taken is an event too, and the gateway goes on.
  function tried(time, events, part, work) {
    try {
      return work();
    } catch (error) {
      if (!motescale.isMotescaleError(error)) throw error;
      events.push({ time: time, event: 'rejected', part: part, code: error.code, parameter: error.parameter });
    }
  }

  // Counts that cannot be made are left out: a counter that stands still does not silence the thermometer.
  function take(time, words) {
    var events = [];
    tried(time, events, 'reading', function () {
      var reading = readingOf(time, words);
      var counts = tried(time, events, 'counts', function () {
        return countsOf(words);
      });
      if (counts !== undefined) reading.counts = counts;
      var step = motescale.advanceMonitor(prepared, state, reading);
      state = step.state;
      events = events.concat(step.events);
    });
    return events;
  }

  return {
    // time in ms since 1970, the registers as a JSON list; the events as a JSON list
    take: function (time, registers) {
      return JSON.stringify(take(time, JSON.parse(registers)));
    },
    // the state as text, for the flash or the disk
    save: function () {
      return JSON.stringify(state);
    },
    // goes on from a text that was saved, here or on another engine; throws where the text is damaged
    restore: function (text) {
      state = motescale.resumeMonitor(prepared, JSON.parse(text)).state;
    }
  };
})();
