/**
 * What decides the meaning of the figures a monitor keeps of an alarm or a followed figure, as a fingerprint that stands in its state.
 *
 * The rest of a configuration (setpoints, deadbands, delays, targets, limits) is only applied to what comes next, and may change freely.
 */

import { textPrint } from '../state/textPrint.ts';
import { followDefaults } from './followed.ts';
import type { FollowedFigure, MonitorAlarm } from './types.ts';

/** Of an alarm: which figure, and raised by what. */
export function alarmPrint(alarm: MonitorAlarm): number {
  const within = 'withinMs' in alarm && alarm.withinMs !== undefined ? alarm.withinMs : '';
  return textPrint(`${alarm.type} ${within} ${figureText(alarm.figure)}`);
}

/** Of a followed figure: which, and in what blocks. */
export function followedPrint({ figure, blockMs, blocks }: FollowedFigure): number {
  const width = blockMs ?? followDefaults.blockMs;
  return textPrint(`${width} ${blocks ?? followDefaults.blocks} ${figureText(figure)}`);
}

/** Its one member, and what that says. */
function figureText(figure: object): string {
  const kind = Object.keys(figure)[0] as string;
  return `${kind} ${(figure as { readonly [kind: string]: string | number })[kind]}`;
}
