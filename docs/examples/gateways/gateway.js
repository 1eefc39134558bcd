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
    // of the data sheet: counts beyond it are of a full counter, which may stand still there and raise the alarm
    limits: { coincidencePerMl: 20000 },
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

  // The parts of a reading: the first register of each, the last, and what is made of them
  var parts = [
    {
      name: 'counts',
      from: 0,
      to: 6,
      made: function (words) {
        var counted = { 4: long(words, 0), 6: long(words, 2), 14: long(words, 4) };
        return motescale.cumulativeCounts(counted, { volumeMl: words[6] / 10 });
      }
    },
    {
      name: 'celsius',
      from: 7,
      to: 7,
      made: function (words) {
        return signed(words[7]) / 10;
      }
    },
    {
      name: 'mlPerMin',
      from: 8,
      to: 8,
      made: function (words) {
        return words[8];
      }
    },
    {
      name: 'kPa',
      from: 9,
      to: 9,
      made: function (words) {
        return words[9];
      }
    },
    {
      name: 'qualities',
      from: 10,
      to: 10,
      made: function (words) {
        return words[10] % 2 === 1 ? { counts: 'uncertain' } : {};
      }
    }
  ];

  // What cannot be taken is an event too, and the gateway goes on.
  function reject(time, events, part, code, parameter) {
    events.push({ time: time, event: 'rejected', part: part, code: code, parameter: parameter });
  }

  // A register is a whole number of 16 bits; the place of the first one of a part that is missing or none, else -1
  function wrongOf(part, words) {
    for (var at = part.from; at <= part.to; at += 1) {
      var word = words[at];
      if (typeof word !== 'number' || !(word >= 0 && word <= 65535) || word % 1 !== 0) return at;
    }
    return -1;
  }

  // What is left out must not pass for what was not measured: the counts beside a flow that is none may be of oil that
  // stands.
  function mark(reading, name) {
    if (reading.qualities === undefined) reading.qualities = {};
    if (name !== 'qualities') reading.qualities[name] = 'bad';
  }

  // A part that cannot be made is left out: a counter that stands still does not silence the thermometer.
  function readingOf(time, events, words) {
    var reading = { time: time };
    var lost = [];
    for (var i = 0; i < parts.length; i += 1) {
      var part = parts[i];
      var wrong = wrongOf(part, words);
      if (wrong >= 0) {
        var code = typeof words[wrong] === 'number' ? 'out_of_range' : 'wrong_type';
        reject(time, events, part.name, code, 'registers[' + wrong + ']');
        lost.push(part.name);
        continue;
      }
      try {
        reading[part.name] = part.made(words);
      } catch (error) {
        if (!motescale.isMotescaleError(error)) throw error;
        reject(time, events, part.name, error.code, error.parameter);
        lost.push(part.name);
      }
    }
    for (var k = 0; k < lost.length; k += 1) mark(reading, lost[k]);
    return reading;
  }

  // What the monitor refuses is left out as well, such as -3276.8 degrees; a reading of nothing is none.
  function advance(time, events, reading) {
    var holds = false;
    for (var name in reading) holds = holds || (name !== 'time' && name !== 'qualities');
    if (!holds) return events;
    try {
      var step = motescale.advanceMonitor(prepared, state, reading);
      state = step.state;
      return events.concat(step.events);
    } catch (error) {
      if (!motescale.isMotescaleError(error)) throw error;
      // such as input.celsius
      var refused = error.parameter.split(/[.[]/)[1];
      var known = refused !== 'time' && reading[refused] !== undefined;
      reject(time, events, known ? refused : 'reading', error.code, error.parameter);
      if (!known) return events;
      delete reading[refused];
      mark(reading, refused);
      return advance(time, events, reading);
    }
  }

  function take(time, registers) {
    var events = [];
    var words = null;
    try {
      words = JSON.parse(registers);
    } catch (error) {
      // no JSON: told below
    }
    if (Array.isArray(words)) return advance(time, events, readingOf(time, events, words));
    reject(time, events, 'frame', 'wrong_type', 'registers');
    return events;
  }

  // CRC-32 as gzip has it (RFC 1952, section 8), of characters of 16 bits: it sees each bent bit of a text.
  function checksumOf(text) {
    var crc = -1;
    for (var i = 0; i < text.length; i += 1) {
      crc ^= text.charCodeAt(i);
      for (var bit = 0; bit < 16; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
    }
    return ('0000000' + (~crc >>> 0).toString(16)).slice(-8);
  }

  return {
    // time in ms since 1970, the registers as a JSON list; the events as a JSON list
    take: function (time, registers) {
      return JSON.stringify(take(time, registers));
    },
    // the state as text after its checksum of eight characters, for the flash or the disk
    save: function () {
      var text = JSON.stringify(state);
      return checksumOf(text) + text;
    },
    // goes on from a text that was saved, here or on another engine; throws where the text is damaged. Returns events
    // as `take` does: what goes on, and what stood and does not, since the configuration has it no longer
    restore: function (saved) {
      var text = saved.slice(8);
      if (saved.slice(0, 8) !== checksumOf(text)) throw new Error('the text that was saved is damaged');
      var resumed = motescale.resumeMonitor(prepared, JSON.parse(text));
      state = resumed.state;
      var told = { time: state.time, event: 'restored', kept: resumed.kept };
      told.dropped = resumed.dropped;
      told.added = resumed.added;
      return JSON.stringify([told].concat(resumed.events));
    }
  };
})();
