/** From when to when an alarm stands, by its events. */

/** Whether an event ends the standing of an alarm that was raised: it returned, or is watched no longer. */
export function endsStanding(event: string): boolean {
  return event === 'returned' || event === 'dropped';
}
