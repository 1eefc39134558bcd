/** Points that may stand between thousands: `12.000` is twelve thousand in some languages, and 12 in others. */

/** Whether digits are written as thousands set apart by points are. */
export function isGrouped(text: string): boolean {
  return /^[1-9]\d{0,2}(\.\d{3})+$/.test(text);
}
