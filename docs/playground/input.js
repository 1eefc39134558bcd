// What stands in the fields, read: counts or a code.
(() => {
  const { cumulativeCounts, findCodes, iso4406, limitsOf, parseCode } = motescale;
  const twoNumbers = /^(\d+(?:\.\d+)?)[\s:;=,]+(\d+(?:\.\d+)?)$/;

  /** An error that the page itself makes; those of the library have a text of their own. */
  function refused(field, message) {
    return Object.assign(new Error(message), { field });
  }

  function volumeOf(text) {
    if (text.trim() === '') return null;
    const volumeMl = Number(text.trim().replace(',', '.'));
    if (volumeMl > 0 && volumeMl <= 1e6) return volumeMl;
    throw refused('volume', `The volume is "${text}"; expected a number of mL above 0, or nothing.`);
  }

  function countsOf(lines, volumeMl, sizing) {
    const perSize = {};
    for (const line of lines) {
      const [, size, count] = twoNumbers.exec(line) ?? [];
      if (size === undefined) throw refused('text', `"${line}" is not a size and a count, as in "4 32698".`);
      if (Number(size) in perSize) throw refused('text', `The size ${size} is there twice.`);
      perSize[Number(size)] = Number(count);
    }
    return cumulativeCounts(perSize, volumeMl === null ? { sizing } : { sizing, volumeMl });
  }

  /** `{ counts }`, or `{ table, code, bands }`. */
  window.readInput = ({ text, volume, sizing, table }) => {
    const lines = text.split('\n').flatMap((line) => line.trim() || []);
    if (lines.length === 0) throw refused('text', 'There is nothing here: paste counts or a code.');
    if (lines.some((line) => twoNumbers.test(line))) return { counts: countsOf(lines, volumeOf(volume), sizing) };
    const [found] = table === iso4406 ? findCodes(text, [iso4406]) : [];
    const code = found?.code ?? parseCode(table, text.trim());
    return { table, code, bands: limitsOf(table, code) };
  };
})();
