/** What was tried where a row misses what is wanted; written below the table. */
export const notes: readonly string[] = [
  '`classify(nas1638)`: products in place of divisions took 6 % off. Lists made to length, fewer checks of the ' +
    'counts and whole numbers scaled at a glance took off less than the spread of the rounds.',
  '`advanceMonitor`, one table, two alarms: the time lies flat over the gate (13 %), the fingerprint (10 %), what is ' +
    'remembered for repeats (12 %), the 30 checks (20 %), the code (12 %) and garbage (9 %). Bits of a double read ' +
    'from typed arrays and lists walked by index took 2 to 15 % off, by the load; whole-number division, products ' +
    'by `Math.imul`, constants written into the bundle and members counted beforehand took off 2 % or nothing.',
  '`advanceMonitor`, 4 tables, 8 alarms, 4 followed: 12 µs until the samples scattered as particles do; before, no ' +
    'level was learned from them. Half of the time is what follows the four figures.',
  '1,000 units: a state holds 16 readings as pairs of a time and a fingerprint, about 1 kB in memory. A flat list of ' +
    'them would be smaller, and a state of another version.',
  'A year of one unit: parsing is a sixth of it. The rest are 105,120 steps of the monitor.',
  'import of `motescale/schema`: three quarters are the 92 files of zod/mini, of which its entry loads every ' +
    'language. Our 28 files without JSON Schemas, or without white space, load no sooner.',
];
