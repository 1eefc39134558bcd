// The page: reads the fields, asks the library, and shows what it says.
(() => {
  const { classify, codeUncertainty, countInterval, errorText, iso4406, isMotescaleError } = motescale;
  const { likelyClasses, nas1638, possibleClasses, sampleSheet, sheetText, standardTables } = motescale;
  const at = (id) => document.getElementById(id);
  const sizings = {
    iso11171: 'µm(c), ISO 11171',
    iso11171b: 'µm(b), ISO 11171',
    iso4402: 'µm, ISO 4402',
    microscope: 'µm, by microscope',
  };

  for (const { id, title } of standardTables) at('table').append(new Option(title, id));
  for (const [id, title] of Object.entries(sizings)) at('sizing').append(new Option(title, id));

  function textOf(error) {
    if (isMotescaleError(error)) return errorText(error);
    if (error.field) return error.message;
    throw error;
  }

  const reasons = { sizing_not_convertible: 'not in this sizing', missing_size: 'sizes are missing' };

  /** What the library says, or why it does not. */
  function told(ask) {
    try {
      return ask();
    } catch (error) {
      return `Cannot be told: ${reasons[error.code] ?? textOf(error)}`;
    }
  }

  function between(low, high) {
    return low === high ? low : `${low} to ${high}`;
  }

  /** A code has a number for each size, and one alone says less. */
  function span(table, { lowest, highest, columns, unseen }) {
    const sizeBySize = /^iso4406/.test(table.id);
    const ends = ['lowest', 'highest'].map((end) => columns.map((column) => column[end]).join('/'));
    const classes = sizeBySize ? between(ends[0], ends[1]) : between(lowest, highest);
    return unseen.length === 0 ? classes : `${classes}; nothing known of ${unseen.join(', ')}`;
  }

  function sureText(table, counts) {
    if (counts.volumeMl === undefined) return 'needs the volume counted';
    const { mostProbable, low, high } = codeUncertainty(table, counts);
    return low.text === high.text ? low.text : `${mostProbable.text}; from ${between(low.text, high.text)}`;
  }

  function cellsOf(table, { counts, bands, table: given, code }) {
    const asGiven = counts ? told(() => classify(table, counts).text) : table === given ? code.text : '';
    const sure = counts ? told(() => sureText(table, counts)) : '';
    const known = counts ?? bands;
    return [
      asGiven,
      sure,
      told(() => span(table, possibleClasses(table, known))),
      told(() => span(table, likelyClasses(table, known))),
    ];
  }

  function row(table, input) {
    const made = document.createElement('tr');
    const head = Object.assign(document.createElement('th'), { scope: 'row', textContent: table.title });
    made.append(head);
    for (const text of cellsOf(table, input)) {
      made.append(Object.assign(document.createElement('td'), { textContent: text || 'not of this input' }));
    }
    return made;
  }

  function marksOf({ counts, bands }) {
    if (bands) {
      return bands.bands.map(({ from, above, upTo }) => {
        const text = upTo === null ? `above ${figure(above)}` : `${figure(above)} to ${figure(upTo)}`;
        return { size: from, low: above, high: upTo ?? above, value: null, text };
      });
    }
    return counts.sizes.map((size, i) => {
      const value = counts.perMl[i];
      const [low, high] = counts.volumeMl === undefined ? [value, value] : limits(counts, i);
      return { size, low, high, value, text: figure(value) };
    });
  }

  function limits(counts, i) {
    const { low, high } = countInterval(counts.counted[i]);
    return [low / counts.volumeMl, high / counts.volumeMl];
  }

  function show(input) {
    at('rows').replaceChildren(...standardTables.map((table) => row(table, input)));
    const sizing = input.counts?.sizing ?? input.bands.sizing;
    at('picture').replaceChildren(drawSizes(marksOf(input), sizings[sizing] ?? 'µm') ?? 'No particle counted.');
    at('sheet').textContent = input.counts ? sheetOf(input.counts) : 'A sheet needs counts.';
    const found = input.counts ? told(() => `ISO 4406 ${classify(iso4406, input.counts).text}`) : input.code.text;
    at('status').textContent = `Worked out: ${found}. The table, the picture and the sheet follow.`;
    at('answer').hidden = false;
  }

  function sheetOf(counts) {
    const target = at('target').value.trim();
    return sheetText(sampleSheet(counts, { tables: [iso4406, nas1638], ...(target === '' ? {} : { target }) }));
  }

  function refuse(error) {
    const field = at(error.field ?? (/target/.test(error.parameter) ? 'target' : 'text'));
    at('status').textContent = `Not worked out. ${textOf(error)}`;
    at('answer').hidden = true;
    field.setAttribute('aria-invalid', 'true');
    field.focus();
  }

  document.querySelector('form').addEventListener('submit', (event) => {
    event.preventDefault();
    for (const field of document.querySelectorAll('[aria-invalid]')) field.removeAttribute('aria-invalid');
    const [text, volume, sizing] = ['text', 'volume', 'sizing'].map((id) => at(id).value);
    const table = standardTables.find(({ id }) => id === at('table').value);
    try {
      show(readInput({ text, volume, sizing, table }));
    } catch (error) {
      refuse(error);
    }
  });
})();
