// A gateway that watches the oil and keeps the flow: readings, ticks, commands and steps of the pump in, events out.
var plant = (function () {
  var prepared = motescale.prepareMonitor({
    codes: [{ table: motescale.iso4406, target: '18/16/13' }],
    alarms: [
      { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14', onDelayMs: 1800000 },
      {
        id: 'little flow',
        type: 'low',
        figure: { quantity: 'mlPerMin' },
        setpoint: 30,
        onDelayMs: 300000,
        suppressedInModes: ['standstill']
      }
    ],
    staleAfterMs: 3600000
  });
  var pump = motescale.prepareFlowControl({
    mlPerMin: 60,
    gain: 0.15,
    integralSeconds: 4,
    leastPercent: 10,
    mostPercent: 50,
    slewPerSecond: 8
  });
  var record = motescale.startUnit(prepared, { unit: 'north gate' });
  var state = motescale.startFlowControl(pump);
  // what the controller doubts of its meter, from one event to the other
  var doubts = { signal_lost: 'signal_back', signal_frozen: 'signal_frozen_ended', speed_at_limit: 'speed_off_limit' };
  var doubted = {};

  // null, NaN and what is no number are no flow
  function isFigure(one) {
    return typeof one === 'number' && isFinite(one);
  }

  function qualityOf() {
    if (doubted.signal_lost || doubted.signal_frozen) return 'bad';
    return doubted.speed_at_limit ? 'uncertain' : 'good';
  }
  // the least time there can be: before the clock is set it says 1970 (our choice: when this was written)
  var earliest = 1796000000000;

  // one input of the monitor; it is numbered here, where the record is kept
  function take(payload) {
    if (!(payload.time >= earliest)) return [{ event: 'clock_unset' }];
    var step = motescale.advanceUnit(prepared, record, { seq: record.seq + 1, payload: payload });
    record = step.record;
    return step.events;
  }

  return {
    // a second of the pump: elapsed by a clock that only goes forward; a stop and a start are an operator's; ready:
    // false while the drive says that it is not, after an emergency stop, a trip or at its isolator
    flow: function (elapsedSeconds, mlPerMin, operator, ready) {
      var input = { elapsedSeconds: elapsedSeconds, mlPerMin: isFigure(mlPerMin) ? mlPerMin : null };
      input.ready = ready !== false;
      if (operator === 'stop') input.manualPercent = 0;
      if (operator === 'start') input.start = true;
      var step = motescale.advanceFlowControl(pump, state, input);
      state = step.state;
      step.events.forEach(function (one) {
        for (var on in doubts) if (one.event === on || one.event === doubts[on]) doubted[on] = one.event === on;
      });
      return { percent: step.percent, events: step.events };
    },
    // a reading of the sensor, with the flow as the controller trusts it; the mode with each
    reading: function (time, counts, celsius, mlPerMin) {
      var reading = { time: time, receivedAt: time, counts: counts, celsius: celsius };
      reading.mode = state.percent === 0 ? 'standstill' : 'running';
      // a flow that is left out must not pass for one that was not measured; one below 0 is read as 0
      reading.qualities = { mlPerMin: isFigure(mlPerMin) ? qualityOf() : 'bad' };
      if (isFigure(mlPerMin)) reading.mlPerMin = mlPerMin;
      return take(reading);
    },
    // each ten minutes, so that the end of a shelf and a silent sensor are told in time
    tick: function (time) {
      return take({ kind: 'tick', time: time });
    },
    // { command, alarm, by } of a panel: stamped here, by the clock that stamps the readings
    command: function (time, given) {
      given.kind = 'command';
      given.time = time;
      return take(given);
    },
    // both states as one text; after a power cut the pump stands, and an operator's stop is kept
    save: function () {
      return JSON.stringify({ record: record, flow: state });
    },
    restore: function (text) {
      var saved = JSON.parse(text);
      record = saved.record;
      record.library = 'earlier'; // its state is looked at whole, once
      var before = motescale.resumeFlowControl(pump, saved.flow).state;
      state = motescale.startFlowControl(pump, { stopped: before.mode === 'manual' && before.percent === 0 });
    }
  };
})();
