/**
 * Limits of one's own in a configuration.
 */
import { requireObject } from '../checks.ts';
import { mergeLimits } from '../reading/assess/check.ts';
import { type ConfigurationProblem, note } from '../state/configuration.ts';

/** One limit at a time, so that all mistakes among them are found. */
export function noteLimits(problems: ConfigurationProblem[], limits: object): void {
  if (typeof limits !== 'object' || limits === null) {
    note(problems, () => requireObject(limits, 'config.limits'));
    return;
  }
  const found: ConfigurationProblem[] = [];
  for (const name of Object.keys(limits)) {
    const value = (limits as { readonly [name: string]: unknown })[name];
    if (name === 'qualities' && typeof value === 'object' && value !== null) {
      for (const code of Object.keys(value)) {
        const quality = (value as { readonly [code: string]: unknown })[code];
        note(found, () => mergeLimits({ qualities: { [code]: quality } } as never));
      }
    } else {
      note(found, () => mergeLimits({ [name]: value } as never));
    }
  }
  for (const problem of found) problems.push({ ...problem, parameter: `config.${problem.parameter}` });
}
