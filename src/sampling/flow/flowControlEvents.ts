/**
 * What a step of the flow controller reports: each event when it becomes true, and once.
 */

import { shown } from '../../numeric/shown.ts';
import type { FlowControlEvent, FlowControlState } from './flowControlTypes.ts';

/** The events between two states. */
export function eventsBetween(before: FlowControlState, after: FlowControlState): FlowControlEvent[] {
  const events: FlowControlEvent[] = [];
  if (after.lost && !before.lost) events.push({ code: 'signal_lost', text: lostText(after) });
  if (!after.lost && before.lost) events.push({ code: 'signal_back', text: 'The flow signal is back.' });
  if (after.byHand && !before.byHand) events.push({ code: 'to_manual', text: 'The speed is set by hand.' });
  if (!after.byHand && before.byHand) events.push({ code: 'to_automatic', text: 'The speed is set by the flow.' });
  if (after.outside && !before.outside) {
    const text = 'The viscosity lies outside the commissioning points: the outer one is used.';
    events.push({ code: 'viscosity_outside', text });
  }
  // a curve that is no longer there has no inside
  if (!after.outside && before.outside && after.mm2PerS !== null) {
    events.push({ code: 'viscosity_inside', text: 'The viscosity lies within the commissioning points again.' });
  }
  return events;
}

function lostText({ mode, percent }: FlowControlState): string {
  if (mode === 'manual') return 'The flow signal is lost; the speed is set by hand.';
  if (mode === 'starting') return 'There is no flow signal: the pump is not started.';
  return `The flow signal is lost: speed held at ${shown(percent)} %.`;
}
