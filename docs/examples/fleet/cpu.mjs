// The CPU that processes and their children have used, in milliseconds, from /proc of Linux; null on another system.
import { readdirSync, readFileSync } from 'node:fs';

/** A tick of the clock in /proc is a hundredth of a second. */
const tickMs = 10;

export function cpuOf(pids) {
  try {
    const all = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
    const own = all.map(statOf).filter(({ pid, parent }) => pids.includes(pid) || pids.includes(parent));
    return (
      tickMs *
      own.reduce((total, { pid, used, usedByChildren }) => {
        return total + used + (pids.includes(pid) ? usedByChildren : 0);
      }, 0)
    );
  } catch {
    return null;
  }
}

/** What stands behind the name, which may have spaces in it (proc(5), /proc/pid/stat). */
function statOf(pid) {
  let fields = [];
  try {
    fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').pop().split(' ').map(Number);
  } catch {
    // it has ended meanwhile
  }
  const [parent = 0, user = 0, system = 0, childUser = 0, childSystem = 0] = [fields[1], ...fields.slice(11, 15)];
  return { pid: Number(pid), parent, used: user + system, usedByChildren: childUser + childSystem };
}
