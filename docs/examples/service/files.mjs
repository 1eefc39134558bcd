// Records in files, one for each unit. A file is written beside the old one, forced to the disk, and takes its place in
// one step.
import * as nodeFs from 'node:fs';
import { join } from 'node:path';

export function fileStore(folder, fs = nodeFs) {
  const ending = '.json';
  const pathOf = (unit) => join(folder, encodeURIComponent(unit) + ending);

  function load(unit) {
    const path = pathOf(unit);
    return fs.existsSync(path) ? JSON.parse(fs.readFileSync(path, 'utf8')) : null;
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
        .filter((unit) => load(unit).untold.length > 0),
  };
}
