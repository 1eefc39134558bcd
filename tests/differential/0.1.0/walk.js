// The inputs of the walk through all functions as of 0.1.0, one bundle: each part calls the library it is given. States are
// only replaced whole, since their members are each version's own.
// tests/engines/inputs.ts
function numbersFrom(seed) {
  let state = seed;
  return (end) => {
    state = state * 16807 % 2147483647;
    return state % end;
  };
}
var aFunction = () => 1;
aFunction.toString = () => "a function";
var odd = [
  void 0,
  null,
  0 / 0,
  1 / 0,
  -1 / 0,
  -1,
  -0,
  0.5,
  3,
  "",
  "7",
  "seven",
  true,
  [],
  [1],
  [null],
  {},
  { sizes: 4 },
  aFunction
];
function spoil(call, inputs) {
  inputs.forEach((good, i) => {
    const callWith = (value) => {
      const spoilt = inputs.slice();
      spoilt[i] = value;
      call.apply(null, spoilt);
    };
    odd.forEach(callWith);
    if (typeof good !== "object" || good === null || Array.isArray(good) || "source" in good || "version" in good) return;
    for (const key of Object.keys(good).sort()) {
      for (const value of odd) callWith({ ...good, [key]: value });
    }
  });
}

// tests/engines/cases/counts.ts
var sizings = ["iso11171", "iso11171b", "iso4402", "microscope"];
var sizeSets = [
  [4, 6, 14],
  [4, 6, 14, 21, 38, 70],
  [2, 4.6, 6.4, 9.8, 21.2, 38.2],
  [5, 15],
  [5, 15, 25, 50, 100],
  [4],
  [1, 3, 10, 30]
];
var methods = ["monotone", "log-log", "log-log2"];
var models = ["paralyzable", "non-paralyzable", "wales-wilson", "princen-kwolek"];
function countsBySize(sizes, next, divisor) {
  const at = {};
  let whole = 0;
  for (let i = sizes.length - 1; i >= 0; i -= 1) {
    if (i === 0 || next(4) > 0) whole += next(40 * (whole + 10));
    at[sizes[i]] = whole / divisor;
  }
  return at;
}
function walk(motescale) {
  const next = numbersFrom(14);
  for (let i = 0; i < 140; i += 1) walkSample(motescale, next, sizeSets[i % sizeSets.length]);
  walkStatistics(motescale, next);
  walkSizings(motescale);
  walkCoincidence(motescale);
  walkDilution(motescale, next);
  walkOddInputs(motescale);
}
function walkSample(motescale, next, sizes) {
  const sizing = sizings[next(sizings.length)];
  const perMl = motescale.cumulativeCounts(countsBySize(sizes, next, 8), { sizing });
  motescale.cumulativeCounts(countsBySize(sizes, next, 1), { sizing, per: "100mL" });
  motescale.cumulativeCounts(countsBySize(sizes, next, 1), { volumeMl: (1 + next(400)) / 8, dilution: 1 + next(9) });
  motescale.fromDifferential(motescale.toDifferential(perMl));
  motescale.equivalentDustMgPerL(perMl);
  motescale.sizeAt(perMl, perMl.perMl[0] / (1 + next(7)));
  for (const method of methods) {
    motescale.countAt(perMl, 7, { method });
    motescale.countAt(perMl, 3 + next(100) / 4, { method, extrapolate: true });
  }
  motescale.countBounds(perMl, next(80) / 2);
}
function walkStatistics(motescale, next) {
  const counted = [0, 1, 2, 3, 5, 7, 10, 19, 20, 30, 50, 100, 400, 1e3, 12345, 1e6, 1e9, 1e10];
  for (const n of counted) {
    for (const confidence of [0.5, 0.95, 0.999]) motescale.countInterval(n, { confidence });
  }
  for (let i = 0; i < 60; i += 1) {
    const a = { counted: next(1 + i * i), volumeMl: (1 + next(40)) / 4 };
    motescale.countsDiffer(a, { counted: next(1 + i * i), volumeMl: 10 });
    motescale.volumeForCount((1 + next(1e4)) / 64, 1 + next(100));
  }
}
function walkSizings(motescale) {
  for (const from of sizings) {
    for (const to of sizings) {
      for (const size of [0.5, 1, 2.5, 4, 5, 6.4, 14, 15.5, 30, 61, 100]) motescale.convertSizing(size, from, to);
      motescale.convertCounts({ sizing: from, sizes: [5, 15.5, 30], perMl: [640, 80, 7] }, to);
    }
  }
}
function walkCoincidence(motescale) {
  for (const model of models) {
    for (const loss of [0.01, 0.05, 0.25]) {
      const sensingVolumeMl = motescale.sensingVolume({ limitPerMl: 24e3, model, loss });
      for (const perMl of [0, 1, 640, 9e3, 24e3, 9e4, 5e6]) {
        motescale.coincidenceLoss(perMl, { sensingVolumeMl, model });
        motescale.correctCoincidence(perMl, { sensingVolumeMl, model });
      }
    }
  }
}
function walkDilution(motescale, next) {
  for (let i = 0; i < 40; i += 1) {
    motescale.testDustCounts(next(2e3) / 64);
    const volumes = { sampleMl: (1 + next(100)) / 4, diluentMl: next(400) / 4 };
    motescale.undilute({ mixturePerMl: next(1e5) / 8, diluentPerMl: next(1e3) / 8, ...volumes });
  }
}
function walkOddInputs(motescale) {
  const counts = { sizing: "iso11171", sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const counted = { counted: 12, volumeMl: 10 };
  spoil(motescale.cumulativeCounts, [
    { 4: 1890, 6: 402 },
    { volumeMl: 10, dilution: 2 }
  ]);
  spoil(motescale.toDifferential, [counts]);
  spoil(motescale.fromDifferential, [{ sizing: "iso11171", ranges: [{ from: 4, to: null, perMl: 3 }] }]);
  spoil(motescale.convertSizing, [5, "iso4402", "iso11171"]);
  spoil(motescale.convertCounts, [counts, "iso4402"]);
  spoil(motescale.countAt, [counts, 10, { method: "monotone", extrapolate: true }]);
  spoil(motescale.countBounds, [counts, 10]);
  spoil(motescale.sizeAt, [counts, 100]);
  spoil(motescale.equivalentDustMgPerL, [counts]);
  spoil(motescale.countInterval, [20, { confidence: 0.9 }]);
  spoil(motescale.volumeForCount, [2.5, 20]);
  spoil(motescale.countsDiffer, [counted, counted, { confidence: 0.9 }]);
  spoil(motescale.coincidenceLoss, [100, { sensingVolumeMl: 1e-3, model: "paralyzable" }]);
  spoil(motescale.correctCoincidence, [100, { sensingVolumeMl: 1e-3, model: "paralyzable" }]);
  spoil(motescale.sensingVolume, [{ limitPerMl: 24e3, model: "paralyzable", loss: 0.05 }]);
  spoil(motescale.testDustCounts, [10]);
  spoil(motescale.undilute, [{ mixturePerMl: 520, diluentPerMl: 5, sampleMl: 10, diluentMl: 90 }]);
  spoil(motescale.isMotescaleError, [{ name: "MotescaleError", code: "negative" }]);
}

// tests/engines/cases/codes.ts
var smallest = 1 / 67108864 / 67108864;
var ownTable = {
  id: "gateOil",
  title: "Lock gate oil",
  counting: "cumulative",
  perVolumeMl: 1,
  columns: [
    { label: "6", from: { iso11171: 6 } },
    { label: "14", from: { iso11171: 14 } }
  ],
  classes: ["run", "filter"],
  limits: [
    [640, 80],
    [2500, 320]
  ]
};
var texts = [
  ["18/16/13", "22/18/-", "-/14/11", "*/18/>=7", ">28/28/0", " 5 / 4 / 3 ", "14/12/\u22657", "18/16", "18/13"],
  ["6B-F", "7B/6C/5D", "000a", ">12F", "6", "6B/7B", "12A/11B/10C/9D/8E/7F", "5C-B"],
  ["00", "0", "6", "12", ">12", "17", "13", "100", ">1000", "run", "level 5"],
  ["", "/", "//", "18//13", "-/-/-", "18/16/29", ">=>28/1/1", "1e1/1/1", "\xE9/\xDF/\xB5", "6-", "6B-", "99999999999"]
];
function walk2(motescale) {
  const next = numbersFrom(28);
  const own = motescale.classTable(ownTable);
  const tables = [
    motescale.iso4406,
    motescale.iso4406Microscope,
    motescale.as4059Differential,
    motescale.as4059Cumulative,
    motescale.nas1638,
    motescale.gost17216,
    motescale.sae749d,
    motescale.navair,
    motescale.cc1246,
    own
  ];
  for (const table of tables) {
    walkTexts(motescale, table);
    walkClasses(motescale, table);
    walkIntervals(motescale, table, next);
    for (let i = 0; i < 24; i += 1) walkSample2(motescale, table, tables[(i + 1) % tables.length], next);
  }
  walkScale(motescale, next);
  walkOddInputs2(motescale);
}
function walkTexts(motescale, table) {
  for (const list of texts) {
    for (const text of list) {
      const code = motescale.parseCode(table, text);
      if (code === void 0) continue;
      motescale.formatCode(table, code);
      motescale.limitsOf(table, code);
      motescale.meets(table, table.classes[1], code);
    }
  }
}
function walkClasses(motescale, table) {
  for (const name of table.classes) {
    motescale.guaranteeingCode(table, name);
    motescale.limitsOf(table, name, "microscope");
  }
}
function walkIntervals(motescale, table, next) {
  for (let i = 0; i < 4; i += 1) {
    const at = {};
    let counted = 90;
    for (const size of sizesOf(table, "iso11171")) {
      counted = next(counted + 1);
      at[size] = counted;
    }
    motescale.codeInterval(motescale.cumulativeCounts(at, { volumeMl: (1 + next(40)) / 4 }), {
      table,
      confidence: 0.9
    });
  }
}
function sizesOf(table, sizing) {
  const sizes = [];
  for (const column of table.columns) {
    const size = column.from[sizing];
    if (size !== void 0) sizes.push(size);
  }
  return sizes.length === 0 ? [6, 14] : sizes;
}
function walkSample2(motescale, table, other, next) {
  const sizing = next(3) === 0 ? "microscope" : "iso11171";
  const sizes = sizesOf(table, sizing);
  const counts = motescale.cumulativeCounts(countsBySize(sizes, next, 32), { sizing });
  const raw = motescale.cumulativeCounts(countsBySize(sizes, next, 1), { sizing, volumeMl: 10, dilution: 1 + next(3) });
  for (const sample of [counts, raw]) {
    const found = motescale.classify(table, sample);
    if (found === void 0) continue;
    motescale.formatCode(table, found);
    motescale.meets(table, found.text, sample);
    motescale.meets(table, table.classes[next(table.classes.length)], found);
  }
  motescale.possibleClasses(counts, other);
  motescale.likelyClasses(counts, other);
  const bands = motescale.limitsOf(table, table.classes[next(table.classes.length)]);
  if (bands === void 0) return;
  motescale.possibleClasses(bands, other);
  motescale.likelyClasses(bands, other);
}
function walkScale(motescale, next) {
  const column = [0];
  for (const row of motescale.iso4406.limits) {
    const limit = row[0];
    column.push(limit, limit * (1 - smallest), limit * (1 + smallest), limit * (64 + next(64)) / 64);
  }
  for (const perMl of column) {
    motescale.scaleNumber(perMl);
    motescale.continuousScaleNumber(perMl);
    motescale.cc1246Level(perMl, 1 + next(100));
    motescale.cc1246Count(1 + next(1e3), 1 + next(100) / 4);
  }
  if (typeof Float64Array !== "undefined") {
    motescale.scaleNumbers(new Float64Array(column));
    motescale.scaleNumbers(new Float64Array([1, 0 / 0]));
  }
}
function walkOddInputs2(motescale) {
  const { iso4406 } = motescale;
  const counts = { sizing: "iso11171", sizes: [4, 6, 14], perMl: [7, 3, 0], counted: [14, 6, 0], volumeMl: 2 };
  const code = { table: "iso4406", parts: [{ column: "4", class: "18" }], text: "18/16/13" };
  spoil(motescale.classTable, [ownTable]);
  spoil(motescale.classify, [iso4406, counts, { columns: ["4"] }]);
  spoil(motescale.parseCode, [iso4406, "18/16/13"]);
  spoil(motescale.formatCode, [iso4406, code]);
  spoil(motescale.limitsOf, [iso4406, "18/16/13", "iso11171"]);
  spoil(motescale.meets, [iso4406, "18/16/13", counts]);
  spoil(motescale.codeInterval, [counts, { confidence: 0.9, table: iso4406 }]);
  spoil(motescale.possibleClasses, [counts, iso4406]);
  spoil(motescale.likelyClasses, [counts, iso4406]);
  spoil(motescale.guaranteeingCode, [motescale.nas1638, "6"]);
  spoil(motescale.scaleNumber, [160]);
  spoil(motescale.continuousScaleNumber, [160]);
  spoil(motescale.cc1246Count, [100, 5]);
  spoil(motescale.cc1246Level, [265, 15]);
}

// tests/engines/cases/filtration.ts
var betas = [1, 1.5, 2, 20, 75, 200, 1e3];
function walk3(motescale) {
  for (const beta of betas) {
    motescale.efficiencyOfBeta(beta);
    motescale.betaOfEfficiency(1 - 1 / beta);
    for (const count of [0, 1, 3, 7]) motescale.shareRemaining(count, beta);
    motescale.combineFilters({ series: [beta, { filter: 75, bypass: 0.125 }] });
    motescale.combineFilters({
      parallel: [
        { litresPerMin: 30, filter: beta },
        { litresPerMin: 10, filter: 200 }
      ]
    });
    for (const ingressionPerMin of [0, 5e6, 1e9]) {
      walkTank(motescale, { litres: 400, litresPerMin: 40, beta, perMl: 9e3, ingressionPerMin });
    }
  }
  for (const minutes of [0, 10, 45.5]) motescale.turnovers({ litres: 400, litresPerMin: 40 }, minutes);
  for (const count of [0, 1, 7]) motescale.timeForTurnovers({ litres: 400, litresPerMin: 40 }, count);
  walkSizes(motescale);
  walkOddInputs3(motescale);
}
function walkTank(motescale, tank) {
  const { beta: _beta, ...withoutBeta } = tank;
  const { litresPerMin: _flow, ...withoutFlow } = tank;
  motescale.steadyState(tank);
  for (const minutes of [0, 5, 60]) {
    motescale.cleanUp(tank, minutes);
    motescale.betaToReach(withoutBeta, 160, minutes);
    motescale.flowToReach(withoutFlow, 160, minutes);
  }
  for (const perMl of [20, 640, 9e3, 12e3]) {
    motescale.timeToReach(tank, perMl);
    motescale.betaToHold(withoutBeta, perMl);
    motescale.flowToHold(withoutFlow, perMl);
  }
  const readings = [0, 10, 25, 60].map((minutes) => ({ minutes, perMl: 9e3 * 16 / (16 + minutes) }));
  motescale.estimateIngression(tank, readings);
}
function walkSizes(motescale) {
  const next = numbersFrom(7);
  for (let i = 0; i < 20; i += 1) {
    const counts = motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 8));
    const tank = { litres: 100 + next(900), litresPerMin: 10 + next(90), counts, beta: [2, 75, 1e3] };
    motescale.filtrationRatios(counts, motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 8)));
    motescale.cleanUpCounts(tank, next(100));
    motescale.cleanUpCurve(tank, 50);
    motescale.steadyStateCounts(tank);
    motescale.timeToReachCode(tank, motescale.limitsOf(motescale.iso4406, "16/14/11"));
  }
}
function walkOddInputs3(motescale) {
  const loop = { litres: 400, litresPerMin: 40 };
  const tank = { ...loop, beta: 75, perMl: 9e3, ingressionPerMin: 1e6 };
  const counts = { sizing: "iso11171", sizes: [4, 6, 14], perMl: [9e3, 2400, 160] };
  const bySize = { ...loop, counts, beta: [20, 75, 1e3], ingressionPerMin: [1e6, 1e5, 1e4] };
  const target = { sizing: "iso11171", bands: [{ from: 6, to: null, above: 80, upTo: 160 }] };
  spoil(motescale.efficiencyOfBeta, [75]);
  spoil(motescale.betaOfEfficiency, [0.9]);
  spoil(motescale.shareRemaining, [3, 75]);
  spoil(motescale.combineFilters, [{ filter: 75, bypass: 0.125 }]);
  spoil(motescale.steadyState, [tank]);
  spoil(motescale.cleanUp, [tank, 10]);
  spoil(motescale.timeToReach, [tank, 160]);
  spoil(motescale.betaToHold, [tank, 160]);
  spoil(motescale.flowToHold, [tank, 160]);
  spoil(motescale.betaToReach, [tank, 160, 30]);
  spoil(motescale.flowToReach, [tank, 160, 30]);
  spoil(motescale.turnovers, [loop, 10]);
  spoil(motescale.timeForTurnovers, [loop, 7]);
  spoil(motescale.estimateIngression, [tank, [{ minutes: 0, perMl: 9e3 }]]);
  spoil(motescale.filtrationRatios, [counts, counts]);
  spoil(motescale.cleanUpCounts, [bySize, 10]);
  spoil(motescale.cleanUpCurve, [bySize, 10]);
  spoil(motescale.steadyStateCounts, [bySize]);
  spoil(motescale.timeToReachCode, [bySize, target]);
}

// tests/engines/cases/monitor.ts
var minute = 6e4;
var alarm = {
  id: "tank oil hot",
  type: "high",
  setpoint: 65,
  deadband: 3,
  onDelayMs: minute,
  offDelayMs: minute,
  latching: true,
  staleAfterMs: 20 * minute,
  chattering: { raises: 3, withinMs: 60 * minute }
};
function walk4(motescale) {
  const next = numbersFrom(365);
  for (const type of ["high", "low", "rise", "fall"]) walkAlarm(motescale, next, type);
  for (let i = 0; i < 25; i += 1) walkSeries(motescale, next, 3 + i);
  walkMonitor(motescale, next);
  walkRollUps(motescale, next);
  walkOddInputs4(motescale);
}
function walkAlarm(motescale, next, type) {
  const within = type === "rise" || type === "fall" ? { withinMs: 10 * minute, setpoint: 5 } : {};
  const config = { ...alarm, type, ...within };
  const commands = ["acknowledge", "reset", "unshelve", "remove_from_service", "return_to_service"];
  let state = motescale.startAlarm(config);
  for (let i = 0; i < 100; i += 1) {
    const time = i * minute;
    const reading = { time, value: next(20) === 0 ? null : 55 + next(20), quality: "good" };
    const command = commands[next(commands.length)];
    const commanded = next(3) === 0 ? { time, command: "shelve", forMs: 5 * minute } : { time, command };
    const answer = motescale.advanceAlarm(config, state, next(8) === 0 ? commanded : reading);
    if (answer !== void 0) state = answer.state;
    motescale.alarmStateName(state);
  }
}
function walkSeries(motescale, next, length) {
  const values = [];
  const times = [];
  for (let i = 0; i < length; i += 1) {
    times.push(8 * 60 * minute * i + next(100));
    values.push(14 + i / 16 + next(24) / 8);
  }
  motescale.mannKendall(values);
  motescale.mannKendall(values, { times, method: "normal" });
  motescale.senSlope(times, values, { confidence: 0.9 });
  motescale.leastSquaresLine(times, values);
  motescale.seasonalKendall(times, values);
  motescale.forecastCrossing(times, values, { level: 18 });
  motescale.forecastCrossing(times, values, { level: 12, direction: "falling", confidence: 0.8 });
  motescale.cusum(values, { target: 15, slack: 0.5, decision: 2 });
  motescale.ewma(values, { lambda: 0.25, start: 15, sigma: 0.75, limits: next(2) === 0 ? "steady" : "growing" });
}
function walkMonitor(motescale, next) {
  const { iso4406, nas1638 } = motescale;
  const config = {
    codes: [{ table: iso4406, target: "18/16/13" }, { table: nas1638 }],
    alarms: [
      { ...alarm, figure: { quantity: "celsius" } },
      { id: "code", type: "high", figure: { code: "iso4406" }, setpoint: "19/17/14" },
      { id: "scale", type: "rise", setpoint: 1, withinMs: 60 * minute, figure: { continuousScaleNumberAt: 4 } }
    ],
    follow: [{ id: "at 6", figure: { perMlAt: 6 }, blockMs: 5 * minute, blocks: 12, learn: 6 }],
    staleAfterMs: 30 * minute
  };
  const proof = { table: iso4406, target: "20/18/15", readings: 3, leastMs: 4 * minute, longestGapMs: 10 * minute };
  let state = motescale.startMonitor(config);
  let acceptance = motescale.startAcceptance(proof);
  for (let i = 0; i < 100; i += 1) {
    const reading = {
      time: (next(12) === 0 ? i - next(10) : i) * minute,
      counts: motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 1), { volumeMl: 10, dilution: 1 }),
      celsius: 55 + next(20),
      kPa: 600 + next(400)
    };
    const answer = motescale.advanceMonitor(config, state, reading);
    if (answer !== void 0) state = answer.state;
    const proven = motescale.advanceAcceptance(proof, acceptance, reading);
    if (proven !== void 0) acceptance = proven.state;
  }
}
function walkRollUps(motescale, next) {
  const options = { widthMs: 15 * minute, holdMs: 4 * minute };
  for (let i = 0; i < 20; i += 1) {
    const readings = [];
    for (let j = 0; j < 12; j += 1) {
      readings.push({
        time: j * 5 * minute + next(4 * minute),
        value: next(160) / 8,
        scaleNumbers: [next(24), next(20)]
      });
    }
    const early = motescale.rollUp(readings.slice(0, 6), options);
    motescale.mergeRollUps(early, motescale.rollUp(readings.slice(6), options), options);
    for (const bucket of motescale.rollUp(readings, options)) motescale.scaleNumberQuantile(bucket, 1, 0.75);
    motescale.rollUpWidth((1 + next(1e4)) * minute, 1 + next(500));
  }
}
function walkOddInputs4(motescale) {
  const { iso4406 } = motescale;
  const counts = { sizing: "iso11171", sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const reading = { time: 0, counts, kPa: 800 };
  const config = { codes: [{ table: iso4406, target: "18/16/13" }], alarms: [], follow: [], staleAfterMs: minute };
  const proof = { table: iso4406, target: "18/16/13", readings: 2, leastMs: 0, leastLitres: 0, longestGapMs: minute };
  const times = [0, 1, 2, 3, 4, 5];
  const values = [15, 15.25, 15, 15.5, 15.75, 16];
  const options = { widthMs: 15 * minute, holdMs: 4 * minute, originMs: 0 };
  spoil(motescale.startAlarm, [alarm]);
  spoil(motescale.advanceAlarm, [alarm, motescale.startAlarm(alarm), { time: 0, value: 66, quality: "good" }]);
  spoil(motescale.alarmStateName, [motescale.startAlarm(alarm)]);
  spoil(motescale.startMonitor, [config]);
  const state = motescale.startMonitor(config);
  spoil((input) => motescale.advanceMonitor(config, state, input), [reading]);
  spoil(motescale.startAcceptance, [proof]);
  spoil(motescale.advanceAcceptance, [proof, motescale.startAcceptance(proof), reading]);
  spoil(motescale.mannKendall, [values, { times, method: "exact" }]);
  spoil(motescale.senSlope, [times, values, { confidence: 0.9 }]);
  spoil(motescale.leastSquaresLine, [times, values]);
  spoil(motescale.seasonalKendall, [times, values, { period: 4, seasons: 2, offset: 0, confidence: 0.9 }]);
  spoil(motescale.forecastCrossing, [times, values, { level: 18, direction: "rising", confidence: 0.9 }]);
  spoil(motescale.cusum, [values, { target: 15, slack: 0.5, decision: 2, from: { high: 0, low: 0 } }]);
  spoil(motescale.ewma, [values, { lambda: 0.25, start: 15, sigma: 1, width: 3, limits: "steady" }]);
  spoil(motescale.rollUp, [[{ time: 0, value: 16 }], options]);
  spoil(motescale.mergeRollUps, [[], [], options]);
  spoil(motescale.rollUpWidth, [24 * 60 * minute, 120]);
  spoil(motescale.scaleNumberQuantile, [{}, 0, 0.75]);
  spoil(motescale.isBadConfiguration, [{ name: "MotescaleError", code: "bad_configuration", problems: [] }]);
}

// tests/engines/cases/report.ts
var texts2 = [
  "unit;perMl\ngate 3;12,5\n",
  'code,perMl\r\n"18/16/13",7\r\n',
  '"a ""b"""\n"c',
  "",
  "a,b\n1\n",
  "\uFEFFx	1"
];
function walk5(motescale) {
  const next = numbersFrom(31);
  const table = {
    header: ["unit", "perMl", "note"],
    rows: [
      ["gate 3", 12.5, "=1+1"],
      ['gate; "4"', 7, null],
      ["3/4", -0.25, "\xE9\n"],
      ["00", 1e5, "MAR1"],
      ["10:9:7", 16, "1E5 \u20AC"],
      ["5 pm", 0, "1 Sept 2026"]
    ]
  };
  for (const separator of [",", ";", "	"]) {
    for (const decimal of [".", ","]) {
      for (const guard of ["formulas", "formulas and dates", "nothing"]) {
        motescale.toCsv(table, { separator, decimal, guard, byteOrderMark: guard === "nothing", lineEnd: "\n" });
      }
      for (const text of texts2) {
        motescale.parseCsv(text, { separator, decimal });
        motescale.parseCsv(text, { separator, decimal, cells: "text" });
      }
    }
  }
  for (let i = 0; i < 12; i += 1) {
    const readings = [];
    for (let j = 0; j <= i; j += 1) {
      const counts2 = motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 4));
      readings.push({
        time: 1e12 + (i * 50 + j) * 36e5,
        counts: counts2,
        codes: { "ISO 4406": "18/16/13" },
        quality: "good"
      });
    }
    const { counts } = readings[0];
    motescale.reportRows(readings, { utcOffsetMinutes: 60 * (i - 6) });
    motescale.periodSummary(readings, { title: "Gate", target: "18/16/13", events: [{ time: 1e12, text: "filter" }] });
    motescale.trendChart(readings, { title: "Gate", target: "18/16/13", alarm: "20/18/15" });
    motescale.periodSummary(readings, {
      table: motescale.nas1638,
      target: "8",
      columns: ["5-15"],
      from: 1e12 + 1,
      to: 2e12
    });
    motescale.sizeChart(counts, { target: "17/15/12" });
    motescale.cleanUpChart(
      { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1e3] },
      { minutes: 60, target: "16/14/11" }
    );
  }
  walkVerdicts(motescale);
  walkOddInputs5(motescale);
}
function walkVerdicts(motescale) {
  const next = numbersFrom(53);
  const config = { codes: [{ table: motescale.iso4406, target: "18/16/13" }, { table: motescale.nas1638 }] };
  let state = motescale.startMonitor(config);
  for (let i = 0; i < 8; i += 1) {
    const reading = {
      time: i * 6e4,
      counts: motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 4)),
      kPa: 100 * i
    };
    const step = motescale.advanceMonitor(config, state, reading);
    state = step.state;
    if (step.verdict !== null) motescale.reportReading(reading, step.verdict);
  }
}
function walkOddInputs5(motescale) {
  const { iso4406 } = motescale;
  const counts = { sizing: "iso11171", sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const reading = { time: 1e12, counts, codes: { "ISO 4406": "18/16/12" }, quality: "good", verdict: "run" };
  const format = { separator: ",", decimal: ".", byteOrderMark: false, lineEnd: "\n" };
  const looks = { title: "Gate", table: iso4406, target: "18/16/13", width: 400 };
  spoil(motescale.toCsv, [
    { header: ["a"], rows: [[1]] },
    { ...format, guard: "formulas" }
  ]);
  spoil(motescale.parseCsv, ["a,b\n1,2\n", { ...format, cells: "typed" }]);
  spoil(motescale.reportRows, [[reading], { utcOffsetMinutes: 60 }]);
  const verdict = { time: 1e12, quality: "good", inTarget: true, codes: [{ table: "iso4406", text: "18/16/12" }] };
  spoil(motescale.reportReading, [reading, verdict]);
  spoil(motescale.periodSummary, [[], { title: "Gate", from: 1e12, to: 11e11, events: [] }]);
  spoil(motescale.periodSummary, [
    [reading],
    { title: "Gate", table: iso4406, target: "18/16/13", utcOffsetMinutes: 0 }
  ]);
  spoil(motescale.trendChart, [[reading], { ...looks, alarm: "20/18/15", utcOffsetMinutes: 0 }]);
  spoil(motescale.sizeChart, [counts, looks]);
  const tank = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1e3] };
  spoil(motescale.cleanUpChart, [tank, { ...looks, minutes: 60 }]);
}

// tests/engines/cases/sampling.ts
var fluids = [
  { mm2PerS: 46, kgPerM3: 870 },
  { mm2PerS: 680, kgPerM3: 905 },
  { mm2PerS: 1, kgPerM3: 1e3 }
];
var lines = [
  [{ metres: 2, boreMm: 4, riseMetres: 0.5 }],
  [
    { metres: 0.5, boreMm: 12, riseMetres: -1, k: 1.5 },
    { metres: 6, boreMm: 6, roughnessMm: 0.05 }
  ]
];
var flowConfig = {
  mlPerMin: 100,
  gain: 0.1,
  integralSeconds: 2.5,
  leastPercent: 5,
  mostPercent: 90,
  slewPerSecond: 5,
  feedForward: {
    curve: [
      { mm2PerS: 60, percent: 20 },
      { mm2PerS: 150, percent: 45 }
    ],
    mlPerMin: 100
  }
};
function walk6(motescale) {
  const next = numbersFrom(60);
  walkLines(motescale);
  walkCounting(motescale);
  walkFlowControl(motescale, next);
  walkReadings(motescale, next);
  walkOddInputs6(motescale);
}
function walkLines(motescale) {
  for (const fluid of fluids) {
    for (const segments of lines) {
      for (const mlPerMin of [25, 100, 2500, 6e4]) {
        motescale.lineFlow({ segments, mlPerMin, fluid });
        motescale.suctionLift({ segments, mlPerMin, fluid });
        motescale.suctionLimits({ segments, mlPerMin, fluid, inletLimitKPa: 70 });
      }
      for (const kPa of [1, 70, 800]) motescale.flowForPressure({ segments, kPa, fluid });
    }
    for (const mlPerMin of [100, 3e4]) {
      motescale.smallestBore({ metres: 3, riseMetres: 0.5, mlPerMin, kPa: 60, fluid });
      motescale.suspension({ size: 30, particleKgPerM3: 2650, fluid, metres: 3, boreMm: 6, mlPerMin });
    }
    for (const size of [4, 14, 100, 700]) motescale.settlingVelocity({ size, particleKgPerM3: 7800, fluid });
  }
  for (const reynolds of [0, 1, 500, 2300, 3e3, 4e3, 1e5, 1e8, 1e9]) {
    for (const roughness of [0, 1e-3, 0.05, 0.5]) motescale.frictionFactor(reynolds, roughness);
  }
  for (const grade of [32, 320]) {
    const viscosity = motescale.viscosityLineOfGrade(grade, 100);
    const inlet = { mlPerMin: 100, viscosity, kgPerM3: 880, celsius: [40, 10, -5], inletLimitKPa: 70 };
    motescale.suctionByTemperature({ segments: lines[0], ...inlet });
  }
}
function walkCounting(motescale) {
  for (const mlPerMin of [10, 62.5, 100]) {
    for (const seconds of [1, 30, 600]) {
      motescale.countedVolume({ mlPerMin, seconds });
      for (const perMl of [0, 0.5, 160])
        motescale.countingConfidence({ mlPerMin, seconds, perMl }, { confidence: 0.9 });
    }
    for (const perMl of [0.1, 10, 5e3]) {
      motescale.timeForCount({ perMl, mlPerMin });
      motescale.timeForCount({ perMl, mlPerMin, particles: 40, chance: 0.95 });
    }
    for (const code of ["13/11/8", "18/16/13", "-/14/11"]) {
      motescale.timeForTarget({ target: motescale.limitsOf(motescale.iso4406, code), mlPerMin });
    }
    for (const profile of ["laminar", "plug"]) {
      for (const renewal of [0.5, 0.99]) motescale.flush({ volumeMl: 25, mlPerMin, renewal, profile });
    }
  }
  for (const mm2PerS of [10, 60, 100, 150, 500]) motescale.speedForViscosity(flowConfig.feedForward.curve, mm2PerS);
}
function walkFlowControl(motescale, next) {
  let state = motescale.startFlowControl();
  motescale.startFlowControl(20);
  for (let i = 0; i < 150; i += 1) {
    const answer = motescale.advanceFlowControl(flowConfig, state, {
      elapsedSeconds: next(20) / 8,
      mlPerMin: next(12) === 0 ? null : next(1600) / 8,
      mm2PerS: next(9) === 0 ? null : 40 + next(140),
      manualPercent: i % 40 > 34 ? next(101) : null
    });
    if (answer !== void 0) state = answer.state;
  }
}
function walkReadings(motescale, next) {
  const earlier = [];
  for (let i = 0; i < 60; i += 1) {
    const volume = { volumeMl: 10, dilution: 1 };
    const reading = {
      counts: motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 1), volume),
      time: 1e3 * (i - (i % 17 === 16 ? 5 : 0)),
      mlPerMin: next(1600) / 8,
      measuringSeconds: 6 + next(60),
      kPa: next(900),
      celsius: next(120) - 20,
      mm2PerS: 1 + next(500),
      waterSaturation: next(120) / 100,
      coldestCelsius: next(60) - 20,
      flushedMl: next(400)
    };
    const found = motescale.assessReading(reading, { flushMl: 200, coincidencePerMl: 2e4 }, earlier.slice(-4));
    if (found !== void 0) motescale.worstQuality(["good", found.quality]);
    earlier.push(reading);
  }
}
function walkOddInputs6(motescale) {
  const segments = lines[0];
  const fluid = fluids[0];
  const counts = { sizing: "iso11171", sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const viscosity = { a: 8.6, b: 3.4, form: "short" };
  const state = {
    ...{ percent: 20, integral: 20, feedForward: 20, mlPerMin: 100, mm2PerS: 90, mode: "automatic" },
    ...{ byHand: false, lost: false, lostSeconds: 0, outside: false }
  };
  const inlet = { segments, mlPerMin: 100, viscosity, kgPerM3: 880, celsius: [40, 10], inletLimitKPa: 70 };
  const tube = { metres: 3, riseMetres: 0.5, k: 1, roughnessMm: 0, mlPerMin: 100, kPa: 60, fluid };
  const particle = { size: 30, particleKgPerM3: 2650, fluid };
  const target = { sizing: "iso11171", bands: [{ from: 4, to: null, above: 40, upTo: 80 }] };
  spoil(motescale.lineFlow, [{ segments, mlPerMin: 100, fluid }]);
  spoil(motescale.suctionLift, [{ segments, mlPerMin: 100, fluid, atmosphereKPa: 100 }]);
  spoil(motescale.suctionLimits, [{ segments, mlPerMin: 100, fluid, inletLimitKPa: 70 }]);
  spoil(motescale.flowForPressure, [{ segments, kPa: 70, fluid }]);
  spoil(motescale.smallestBore, [tube]);
  spoil(motescale.suspension, [{ ...particle, metres: 3, boreMm: 6, mlPerMin: 100, roughnessMm: 0, lossLimit: 0.05 }]);
  spoil(motescale.settlingVelocity, [particle]);
  spoil(motescale.frictionFactor, [5e3, 1e-3]);
  spoil(motescale.suctionByTemperature, [inlet]);
  spoil(motescale.countedVolume, [{ mlPerMin: 100, seconds: 60 }]);
  spoil(motescale.countingConfidence, [
    { mlPerMin: 100, seconds: 6, perMl: 5 },
    { particles: 20, confidence: 0.9 }
  ]);
  spoil(motescale.timeForCount, [{ perMl: 10, mlPerMin: 100, particles: 20, chance: 0.9 }]);
  spoil(motescale.timeForTarget, [{ target, mlPerMin: 100, particles: 20, chance: 0.9 }]);
  spoil(motescale.flush, [{ volumeMl: 25, mlPerMin: 100, renewal: 0.99, profile: "laminar" }]);
  spoil(motescale.speedForViscosity, [flowConfig.feedForward.curve, 100]);
  spoil(motescale.startFlowControl, [20]);
  spoil(motescale.advanceFlowControl, [
    flowConfig,
    state,
    { elapsedSeconds: 1, mlPerMin: 90, mm2PerS: 80, manualPercent: 0 }
  ]);
  spoil(motescale.assessReading, [{ counts, time: 1, mlPerMin: 100, kPa: 70, celsius: 40 }, { particles: 20 }, []]);
  spoil(motescale.worstQuality, [["good"]]);
}

// tests/engines/cases/units.ts
function walk7(motescale) {
  const conversions = [
    motescale.fahrenheitToCelsius,
    motescale.celsiusToFahrenheit,
    motescale.psiToKPa,
    motescale.kPaToPsi,
    motescale.barToKPa,
    motescale.kPaToBar,
    motescale.feetToMetres,
    motescale.metresToFeet,
    motescale.usGallonsToLitres,
    motescale.litresToUsGallons,
    motescale.inchHgToKPa,
    motescale.kPaToInchHg
  ];
  for (const convert of conversions) {
    for (const value of [0, 1, -40, 212, 0.1, 6.5, 1e6, 1e-6]) convert(value);
    spoil(convert, [1]);
  }
}

// tests/engines/cases/viscosity.ts
var points = [
  [40, 46, 100, 6.8],
  [40, 10, 100, 2.5],
  [0, 1200, 100, 11],
  [-20, 5e3, 80, 4],
  [40, 68, 40, 68],
  [40, 10, 100, 20]
];
var scales = [
  "mm2/s",
  "SUS",
  "SFS",
  "redwood1",
  "redwood1-nbs",
  "redwood2",
  "engler",
  "engler-ubbelohde",
  "engler-two-branch",
  "iso2431-4mm",
  "d1200-4"
];
var kinematic = [0.5, 1, 2.4, 4.5, 6.8, 15, 32, 46, 100.5, 460, 3200];
function walk8(motescale) {
  walkLines2(motescale);
  walkScales(motescale);
  walkIndex(motescale);
  walkGrades(motescale);
  walkDensity(motescale);
  walkOddInputs7(motescale);
}
function walkLines2(motescale) {
  for (const [celsius1, first, celsius2, second] of points) {
    const ends = [
      { celsius: celsius1, mm2PerS: first },
      { celsius: celsius2, mm2PerS: second }
    ];
    const more = [...ends, { celsius: 60, mm2PerS: 20 }];
    motescale.ubbelohdeWaltherM(ends);
    for (const form of ["full", "short"]) {
      const line = motescale.viscosityLine(ends, { form });
      motescale.lineResiduals(motescale.viscosityLine(more, { form }), more);
      for (const celsius of [-60, -15, 0, 25, 40, 77.5, 120, 300]) motescale.viscosityAt(line, celsius);
      for (const mm2PerS of kinematic) motescale.temperatureAt(line, mm2PerS);
      motescale.blendLines([
        { fraction: 0.25, line },
        { fraction: 0.75, line: motescale.viscosityLineOfGrade(32, 100) }
      ]);
      motescale.blendLinesFraction({
        first: line,
        second: motescale.viscosityLineOfGrade(32, 100),
        celsius: 40,
        mm2PerS: 40
      });
    }
  }
  for (const method of ["astm", "refutas"]) {
    for (const mm2PerS of kinematic) {
      motescale.blendViscosity(
        [
          { fraction: 0.375, mm2PerS },
          { fraction: 0.625, mm2PerS: 68 }
        ],
        method
      );
      motescale.blendFraction({ firstMm2PerS: mm2PerS, secondMm2PerS: 320, targetMm2PerS: 100 }, method);
      motescale.refutasNumber(mm2PerS);
    }
  }
}
function walkScales(motescale) {
  for (const from of scales) {
    for (const to of scales) {
      for (const value of [1.5, 33, 60, 220, 1500]) motescale.convertViscosity(value, from, to);
    }
  }
  for (const celsius of [20, 50, 98.9]) motescale.convertViscosity(46, "mm2/s", "SUS", { celsius });
}
function walkIndex(motescale) {
  for (const at100 of kinematic) {
    motescale.referenceViscosities(at100);
    for (const factor of [2, 5, 7.5, 11]) {
      const at40 = at100 * factor;
      const found = motescale.viscosityIndex({ at40, at100 });
      if (found !== void 0) motescale.viscosityAt100OfIndex(at40, found.index);
    }
    for (const index of [0, 95, 100, 160]) motescale.viscosityAt40OfIndex(at100, index);
  }
}
function walkGrades(motescale) {
  for (const mm2PerS of kinematic) {
    motescale.isoGrade(mm2PerS);
    motescale.isoGradeLimits(mm2PerS);
    motescale.agmaGrades({ at40: mm2PerS, at100: mm2PerS });
    motescale.saeEngineGrades(mm2PerS);
    motescale.saeEngineGrades(mm2PerS, { hths: 3 });
    motescale.saeGearGrades(mm2PerS);
    motescale.saeGearGrades(mm2PerS, { edition: "2005" });
    motescale.gradesOfOil(mm2PerS, 95);
    motescale.pressureViscosityFactor(mm2PerS * 1e3, 2e-8);
  }
  for (const index of [60, 95, 100, 150]) {
    motescale.compareGrades(index);
    motescale.viscosityLineOfGrade(46, index);
  }
  for (const grade of ["0W", "20", "40", "75W", "80", "90", "140", "5", "8A", "none"]) {
    motescale.saeEngineGradeLimits(grade);
    motescale.saeGearGradeLimits(grade);
    motescale.saeGearGradeLimits(grade, { edition: "2005" });
    motescale.agmaGradeLimits(grade);
  }
}
function walkDensity(motescale) {
  for (const kgPerM3 of [700, 850, 872.5, 905, 1010]) {
    motescale.apiOfDensity(kgPerM3);
    motescale.apiOfRelativeDensity(kgPerM3 / 1e3);
    motescale.dynamicViscosity(46, kgPerM3);
    motescale.kinematicViscosity(40, kgPerM3);
    for (const celsius of [-10, 15, 40, 95]) {
      motescale.densityAt(kgPerM3, celsius);
      motescale.densityAt15(kgPerM3, celsius);
    }
  }
  for (const degrees of [5, 10, 28.5, 45]) {
    motescale.densityOfApi(degrees);
    motescale.relativeDensityOfApi(degrees);
  }
}
function walkOddInputs7(motescale) {
  const line = { a: 8.6, b: 3.4, form: "short" };
  const ends = [
    { celsius: 40, mm2PerS: 46 },
    { celsius: 100, mm2PerS: 6.8 }
  ];
  spoil(motescale.viscosityLine, [ends, { form: "full" }]);
  spoil(motescale.ubbelohdeWaltherM, [ends]);
  spoil(motescale.lineResiduals, [line, ends]);
  spoil(motescale.viscosityAt, [line, 40]);
  spoil(motescale.temperatureAt, [line, 46]);
  spoil(motescale.viscosityLineOfGrade, [46, 100]);
  spoil(motescale.blendLines, [[{ fraction: 1, line }]]);
  spoil(motescale.blendLinesFraction, [{ first: line, second: line, celsius: 40, mm2PerS: 40 }]);
  spoil(motescale.blendViscosity, [[{ fraction: 1, mm2PerS: 46 }], "astm"]);
  spoil(motescale.blendFraction, [{ firstMm2PerS: 32, secondMm2PerS: 320, targetMm2PerS: 100 }, "refutas"]);
  spoil(motescale.refutasNumber, [46]);
  spoil(motescale.convertViscosity, [46, "mm2/s", "SUS", { celsius: 40 }]);
  spoil(motescale.viscosityIndex, [{ at40: 46, at100: 6.8 }]);
  spoil(motescale.referenceViscosities, [6.8]);
  spoil(motescale.viscosityAt100OfIndex, [46, 100]);
  spoil(motescale.viscosityAt40OfIndex, [6.8, 100]);
  spoil(motescale.isoGrade, [46]);
  spoil(motescale.isoGradeLimits, [46]);
  spoil(motescale.agmaGrades, [{ at40: 46, at100: 6.8 }]);
  spoil(motescale.agmaGradeLimits, ["5"]);
  spoil(motescale.saeEngineGrades, [10, { hths: 3 }]);
  spoil(motescale.saeEngineGradeLimits, ["30"]);
  spoil(motescale.saeGearGrades, [14, { edition: "2019" }]);
  spoil(motescale.saeGearGradeLimits, ["90", { edition: "2019" }]);
  spoil(motescale.compareGrades, [95]);
  spoil(motescale.gradesOfOil, [46, 95]);
  spoil(motescale.pressureViscosityFactor, [1e3, 2e-8]);
  spoil(motescale.apiOfDensity, [870]);
  spoil(motescale.apiOfRelativeDensity, [0.87]);
  spoil(motescale.densityOfApi, [30]);
  spoil(motescale.relativeDensityOfApi, [30]);
  spoil(motescale.densityAt, [870, 40]);
  spoil(motescale.densityAt15, [870, 40]);
  spoil(motescale.dynamicViscosity, [46, 870]);
  spoil(motescale.kinematicViscosity, [40, 870]);
}

// tests/engines/cases/water.ts
var temperatures = [-40, -10, 0, 0.01, 20, 42.5, 60, 90, 150];
function walk9(motescale) {
  const lines2 = [
    motescale.mineralInsulatingOil,
    motescale.insulatingOil({ aromaticPercent: 12, mgKohPerG: 0.05 }),
    motescale.solubilityLine([
      { celsius: 20, mgPerKg: 60 },
      { celsius: 70, mgPerKg: 400 }
    ]),
    motescale.solubilityLine([
      { celsius: 10, mgPerKg: 40 },
      { celsius: 40, mgPerKg: 150 },
      { celsius: 80, mgPerKg: 700 }
    ])
  ];
  for (const celsius of temperatures) {
    motescale.saturationPressure(celsius);
    for (const humidity of [0, 0.05, 0.5, 1, 1.5]) motescale.dewPoint(celsius, humidity);
    for (const kPa of [0.5, 1, 7.25, 101.325, 4e3]) motescale.condensationTemperature(kPa + celsius / 64);
    for (const line of lines2) {
      motescale.solubilityAt(line, celsius);
      for (const mgPerKg of [0, 25, 180, 900]) {
        motescale.relativeSaturation(line, mgPerKg, celsius);
        motescale.freeWater(line, mgPerKg, celsius);
      }
      for (const saturation of [0, 0.125, 0.75, 1, 1.25]) {
        motescale.waterContent(line, saturation, celsius);
        motescale.saturationAfterCooling(line, { saturation, fromCelsius: 60, toCelsius: celsius });
      }
    }
  }
  for (const line of lines2) {
    for (const mgPerKg of [0, 1, 25, 180, 900, 1e6]) motescale.saturationTemperature(line, mgPerKg);
  }
  walkOddInputs8(motescale);
}
function walkOddInputs8(motescale) {
  const line = { a: 7.5, b: 1600 };
  const points2 = [
    { celsius: 20, mgPerKg: 60 },
    { celsius: 70, mgPerKg: 400 }
  ];
  spoil(motescale.solubilityLine, [points2]);
  spoil(motescale.solubilityAt, [line, 40]);
  spoil(motescale.saturationTemperature, [line, 100]);
  spoil(motescale.insulatingOil, [{ aromaticPercent: 12, mgKohPerG: 0.05 }]);
  spoil(motescale.saturationPressure, [40]);
  spoil(motescale.dewPoint, [40, 0.5]);
  spoil(motescale.condensationTemperature, [101.325]);
  spoil(motescale.relativeSaturation, [line, 100, 40]);
  spoil(motescale.waterContent, [line, 0.5, 40]);
  spoil(motescale.freeWater, [line, 100, 40]);
  spoil(motescale.saturationAfterCooling, [line, { saturation: 0.5, fromCelsius: 60, toCelsius: 20 }]);
}

// entry.ts
var walks = { codes: walk2, counts: walk, filtration: walk3, monitor: walk4, report: walk5, sampling: walk6, units: walk7, viscosity: walk8, water: walk9 };
export {
  walks
};
