/** JSON data as it may come from outside: good, or broken in up to three places. */
import fc from 'fast-check';

export type Json = null | boolean | number | string | Json[] | { [name: string]: Json };

const junk: readonly Json[] = [
  ...[
    null,
    true,
    false,
    0,
    -1,
    0.5,
    1,
    1.5,
    4,
    20,
    61,
    1001,
    59999,
    1e13,
    -300,
    1e300,
    '',
    'x',
    '6',
    'low',
    'iso11171',
    '18/16/13',
    'bad',
  ],
  ...[[], {}, [null], [4], [4, 3], { x: 1 }, { iso11171: 5 }, { code: 'iso4406' }, { perMlAt: 4 }, { low: 1, high: 0 }],
];

/** A copy of the data, broken in up to `most` places: a value replaced, taken away, doubled, or a member put in. */
export function broken(good: fc.Arbitrary<Json>, most = 3): fc.Arbitrary<Json> {
  const how = fc.constantFrom('replace', 'remove', 'repeat', 'add');
  const change = fc.record({ place: fc.nat(), how, by: fc.constantFrom(...junk) });
  return fc.tuple(good, fc.array(change, { maxLength: most })).map(([data, changes]) => {
    const root = { data: structuredClone(data) };
    for (const { place, how, by } of changes) {
      const places = placesIn(root);
      const [holder, name] = places[place % places.length] as [Record<string, Json> | Json[], string];
      const value = (holder as Record<string, Json>)[name] as Json;
      if (how === 'add' && typeof value === 'object' && value !== null && !Array.isArray(value)) value.extra = by;
      else if (how === 'repeat' && Array.isArray(holder)) holder.push(structuredClone(value));
      else if (how === 'remove' && Array.isArray(holder)) holder.splice(Number(name), 1);
      else if (how === 'remove' && holder !== root) delete (holder as Record<string, Json>)[name];
      else (holder as Record<string, Json>)[name] = structuredClone(by);
    }
    return root.data;
  });
}

/** Every place below: the object or array it is in, and its name there. */
function placesIn(holder: Record<string, Json> | Json[]): [Record<string, Json> | Json[], string][] {
  return Object.entries(holder).flatMap(([name, value]) => {
    const here: [Record<string, Json> | Json[], string] = [holder, name];
    return typeof value === 'object' && value !== null ? [here, ...placesIn(value)] : [here];
  });
}
