/** A place in a list in order, by halving. */

/** The first place where a thing holds that holds from there on; the length of the list where it never does. */
export function firstWhere<T>(list: readonly T[], holds: (item: T) => boolean): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(list[middle] as T)) high = middle;
    else low = middle + 1;
  }
  return low;
}
