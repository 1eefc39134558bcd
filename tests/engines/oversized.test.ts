/** What is far too large is refused at once, on the slowest engine too. */
import { readFileSync, rmSync } from 'node:fs';
import { expect, test } from 'vitest';
import { engines, isRun, runLimit, writePrograms } from './engines.ts';
import { ending } from './program.ts';

/** Each is made once, and tried three times: the best counts, since a busy machine only ever takes longer. */
const program = `
var walked, lines = [];
var alarm = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 };
var codes = [{ table: motescale.iso4406, target: '18/16/13' }];
var prepared = motescale.prepareMonitor({ codes: codes, alarms: [alarm] });
var state = motescale.startMonitor(prepared);
var counts = motescale.cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
function list(each) { var made = []; for (var i = 0; i < 100000; i += 1) made.push(each(i)); return made; }
function record(name, each) { var made = {}; for (var i = 0; i < 100000; i += 1) made[name(i)] = each(i); return made; }
function named(name, value) { var made = {}; made[name] = value; return made; }
function config(more) { motescale.prepareMonitor({ codes: codes, alarms: more }); }
function reading(more) { more.time = 0; motescale.advanceMonitor(prepared, state, more); }
var long = '0123456789';
while (long.length < 10000000) long += long;
var others = record(function (i) { return 'n' + i; }, function (i) { return i; });
var alarms = list(function () { return alarm; });
var wrong = list(function () { return { id: 7, typ: 'high' }; });
var descending = list(function (i) { return 100000 - i; });
var words = list(function () { return 'x'; });
var shuffled = record(function (i) { return ((i * 7919) % 100003) + '.5'; }, function () { return 'x'; });
var lastWrong = record(function (i) { return i < 99999 ? i + 1 : -7; }, function () { return 1; });
function list3(sizes) { return { sizing: 'iso11171', sizes: sizes, perMl: words }; }
var tried = {
  'alarms': function () { config(alarms); },
  'wrong alarms': function () { config(wrong); },
  'codes': function () { motescale.prepareMonitor({ codes: list(function () { return codes[0]; }) }); },
  'members of a configuration': function () { motescale.prepareMonitor(others); },
  'others': function () { reading({ counts: counts, others: others }); },
  'members of a reading': function () { reading(others); },
  'qualities': function () { reading({ counts: counts, qualities: others }); },
  'codes of a reading': function () { reading({ codes: others }); },
  'the id of an alarm': function () { config([{ id: long, type: 'high', figure: alarm.figure, setpoint: 65 }]); },
  'the name of a member': function () { reading(named(long, 1)); },
  'the name of another figure': function () { reading({ others: named(long, 1) }); },
  'a mode': function () { reading({ counts: counts, mode: long }); },
  'a target': function () { motescale.prepareMonitor({ codes: [{ table: motescale.iso4406, target: long }] }); },
  'a code': function () { motescale.parseCode(motescale.iso4406, long); },
  'a code of a reading': function () { reading({ codes: { iso4406: long } }); },
  'the name of a unit': function () { motescale.startUnit(prepared, { unit: long }); },
  'wrong sizes': function () { motescale.cumulativeCounts(shuffled); },
  'one wrong size': function () { motescale.cumulativeCounts(lastWrong); },
  'a list of wrong sizes': function () { reading({ counts: list3(descending) }); },
  'sizes that are words': function () { reading({ counts: list3(words) }); },
  'members of a state': function () { motescale.resumeMonitor(prepared, others); },
  'members of a proof': function () { motescale.prepareAcceptance(others); }
};
for (var name in tried) {
  var best = 1e9, code = 'accepted';
  for (var k = 0; k < 3; k += 1) {
    var began = Date.now();
    try { tried[name](); } catch (error) { code = motescale.isMotescaleError(error) ? 'refused' : String(error); }
    best = Math.min(best, Date.now() - began);
  }
  lines.push([name, code, best]);
}
walked = JSON.stringify(lines);
${ending}`;

const small = engines.filter((engine) => isRun(engine) && ['Duktape', 'mujs', 'QuickJS'].includes(engine.name));

test.each(small)(
  'a hundred thousand, or ten megabytes, on $name',
  async (engine) => {
    const programs = writePrograms(`${readFileSync('dist/scripts/motescale.global.js', 'utf8')}\n${program}`, '');
    const lines: [string, string, number][] = JSON.parse(await engine.run(programs));
    rmSync(programs.folder, { recursive: true, force: true });
    expect(lines.length).toBe(22);
    expect(lines.filter(([, code]) => code !== 'refused')).toEqual([]);
    expect(lines.filter(([, , ms]) => ms >= 1000)).toEqual([]);
  },
  runLimit,
);
