/** Where the figures and formulas of alarms come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<Record<'alarm' | 'offDelay' | 'alarmState', Source>> = {
  // Deadband, delays, shelving and latching.
  alarm: {
    document:
      'OPC 10000-9, OPC Unified Architecture, Part 9: Alarms and Conditions (maps the terms of IEC 62682 and ' +
      'ANSI/ISA-18.2)',
    edition: '1.04 and 1.05',
    place: '3.1, 4.8, 5.8.2, 5.8.17, B.1.5, annex E',
    standing: 'published',
  },
  // The off-delay is the on-delay if nothing else is said.
  offDelay: {
    document: 'OPC 30030, OPC UA for BACnet (event algorithms of ASHRAE 135)',
    edition: 'edition not recorded',
    place: '8.9, 8.13: Time_Delay, Time_Delay_Normal, Deadband',
    standing: 'published',
  },
  // The names of the states.
  alarmState: {
    document: 'ANSI/ISA-18.2, Management of Alarm Systems for the Process Industries',
    edition: '2016',
    place: 'alarm state transition diagram, states A to I',
    standing: 'from memory',
  },
};
