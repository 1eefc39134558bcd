/** The script for codes alone: counts to ISO 4406, AS4059 and NAS 1638, targets, reading and writing codes. */
export {
  as4059Cumulative,
  as4059Differential,
  classify,
  formatCode,
  isMotescaleError,
  iso4406,
  meets,
  nas1638,
  parseCode,
  version,
} from '../codes/index.ts';
export { cumulativeCounts } from '../counts/cumulativeCounts.ts';
