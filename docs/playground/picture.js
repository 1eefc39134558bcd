// Counts per mL over size, both on logarithmic axes, as SVG. A point with its limits where there are counts, a box from
// the lower to the upper limit where there is a code; each with its figure beside it.
(() => {
  const [left, right, top, bottom] = [70, 560, 20, 300];

  function element(name, attributes, text) {
    const made = document.createElementNS('http://www.w3.org/2000/svg', name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    if (text !== undefined) made.textContent = text;
    return made;
  }

  /** Three digits, in full. */
  function figure(value) {
    return Number(value.toPrecision(3)).toLocaleString('en', { maximumSignificantDigits: 3 });
  }

  /** Decades that hold all values. */
  function axis(values, from, to) {
    const first = Math.floor(Math.log10(Math.min(...values)));
    const last = Math.max(first + 1, Math.ceil(Math.log10(Math.max(...values))));
    const place = (value) => from + ((Math.log10(value) - first) / (last - first)) * (to - from);
    return { place, ticks: Array.from({ length: last - first + 1 }, (_, i) => 10 ** (first + i)) };
  }

  /** Marks are `{ size, low, high, value, text }`, counts per mL; `value` is null for a band. */
  window.drawSizes = (marks, unit) => {
    const known = marks.flatMap(({ low, high, value }) => [low, high, value].filter((count) => count > 0));
    if (known.length === 0) return null;
    const sizes = marks.map(({ size }) => size);
    const [x, y] = [axis(sizes, left + 10, right), axis(known, bottom, top)];
    const floor = (count) => (count > 0 ? y.place(count) : bottom);
    const svg = element('svg', { viewBox: '0 0 640 350', role: 'img', 'font-size': '13' });
    const words = marks.map(({ size, text }) => `${size} µm: ${text}`).join('; ');
    svg.append(element('title', {}, `Counts per mL by size in ${unit}. ${words}`));
    for (const tick of y.ticks) {
      const at = y.place(tick);
      svg.append(element('line', { x1: left, x2: right, y1: at, y2: at, class: 'grid' }));
      svg.append(element('text', { x: left - 6, y: at + 4, 'text-anchor': 'end' }, tick.toLocaleString('en')));
    }
    for (const { size, low, high, value, text } of marks) {
      const at = x.place(size);
      const [upper, lower] = [floor(high), floor(low)];
      if (value === null)
        svg.append(element('rect', { x: at - 5, y: upper, width: 10, height: lower - upper, class: 'band' }));
      else {
        svg.append(element('line', { x1: at, x2: at, y1: upper, y2: lower }));
        svg.append(element('circle', { cx: at, cy: floor(value), r: 4 }));
      }
      svg.append(element('text', { x: at + 9, y: (value === null ? upper : floor(value)) - 5 }, text));
      svg.append(element('text', { x: at, y: bottom + 18, 'text-anchor': 'middle' }, String(size)));
    }
    svg.append(element('line', { x1: left, x2: right, y1: bottom, y2: bottom }));
    svg.append(element('text', { x: left, y: 344 }, `size and larger, ${unit}; up: particles per mL`));
    return svg;
  };

  window.figure = figure;
})();
