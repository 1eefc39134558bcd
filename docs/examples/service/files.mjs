// Records in files, one for each unit. A file is written beside the old one, forced to the disk, and takes its place in
// one step.
import * as nodeFs from 'node:fs';
import { join } from 'node:path';

/** `warn`: told at the start of each file that is damaged. */
export function fileStore(folder, fs = nodeFs, warn = console.error) {
  const ending = '.json';
  const pathOf = (unit) => join(folder, encodeURIComponent(unit) + ending);

  /** What is kept of a unit, null where nothing is; or `damage`, in words. */
  function read(unit) {
    const path = pathOf(unit);
    if (!fs.existsSync(path)) return { kept: null };
    const text = fs.readFileSync(path, 'utf8');
    try {
      const kept = JSON.parse(text);
      if (kept?.record?.unit === unit && Array.isArray(kept.untold)) return { kept };
    } catch {
      // no JSON: half a file, or none of its text
    }
    return { kept: null, damage: `the record of ${unit} is damaged: ${path}` };
  }

  function load(unit) {
    const { kept, damage } = read(unit);
    if (damage) throw new Error(damage);
    return kept;
  }

  /** Whether events wait; a damaged file stops its own unit only, when an input of it comes. */
  function hasUntold(unit) {
    const { kept, damage } = read(unit);
    if (damage) warn(damage);
    return kept !== null && kept.untold.length > 0;
  }

  function write(unit, kept) {
    const path = pathOf(unit);
    const file = fs.openSync(`${path}.new`, 'w');
    fs.writeFileSync(file, JSON.stringify(kept));
    fs.fsyncSync(file);
    fs.closeSync(file);
    fs.renameSync(`${path}.new`, path);
    // the new name, too, is on the disk only when the folder is
    const place = fs.openSync(folder, 'r');
    fs.fsyncSync(place);
    fs.closeSync(place);
  }

  return {
    load,
    keep: (unit, record, events) => write(unit, { record, untold: events }),
    told: (unit) => write(unit, { record: load(unit).record, untold: [] }),
    waiting: () =>
      fs
        .readdirSync(folder)
        .filter((name) => name.endsWith(ending))
        .map((name) => decodeURIComponent(name.slice(0, -ending.length)))
        .filter(hasUntold),
  };
}
