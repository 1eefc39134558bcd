// Units are dealt out to parts by their names. More parts than workers, so that work spreads; the number never changes
// while inputs wait.
export const parts = 8;

export function partOf(unit) {
  let hash = 0;
  for (let i = 0; i < unit.length; i += 1) hash = (Math.imul(hash, 31) + unit.charCodeAt(i)) >>> 0;
  return hash % parts;
}
