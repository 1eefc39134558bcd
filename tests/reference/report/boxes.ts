/**
 * Where the texts of a picture stand: their boxes, reckoned from an SVG without a browser, by the widths of common
 * letters.
 */
export interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Widths in thousandths of the letter size, as of common sans-serif faces; others 556. */
function widthOf(text: string): number {
  let width = 0;
  for (const letter of text) {
    if ("ijl.,:;|' ".includes(letter)) width += 250;
    else if ('frtI()-'.includes(letter)) width += 320;
    else if ('mwMW%'.includes(letter)) width += 840;
    else width += /[A-Z]/.test(letter) ? 690 : 556;
  }
  return width / 1000;
}

/** The boxes of all texts, half a line of small letters high. */
export function boxesIn(svg: string): Box[] {
  const boxes: Box[] = [];
  const shifts: [number, number][] = [[0, 0]];
  const tag = /<(\/?)(g|text|tspan|svg|path|line|rect|title|desc|defs|clipPath)\b([^>]*?)(\/?)>([^<]*)/g;
  let place: { x: number; y: number; anchor: string; size: number; weight: number } | null = null;
  for (const [, closing, name, attributes = '', self, content = ''] of svg.matchAll(tag)) {
    if (name === 'g' || name === 'svg') {
      if (closing === '/') shifts.pop();
      else if (self !== '/') {
        const [x, y] = shifts[shifts.length - 1] as [number, number];
        const [dx, dy] = shiftOf(attributes);
        shifts.push([x + dx, y + dy]);
      }
      continue;
    }
    if (name === 'text' && closing !== '/') {
      const [x, y] = shifts[shifts.length - 1] as [number, number];
      const [dx, dy] = shiftOf(attributes);
      if (/ opacity="0"/.test(attributes)) {
        place = null;
        continue;
      }
      const size = Number(/font-size="([\d.]+)px"/.exec(attributes)?.[1] ?? 11);
      const weight = /font-weight="(?:bold|600)"/.test(attributes) ? 1.08 : 1;
      const anchor = /text-anchor="(\w+)"/.exec(attributes)?.[1] ?? 'start';
      if (/rotate/.test(attributes)) throw new Error('no text is turned');
      place = { x: x + dx, y: y + dy, anchor, size, weight };
      add(content, 0);
    } else if (name === 'tspan' && closing !== '/') add(content, Number(/dy="([-\d.]+)"/.exec(attributes)?.[1] ?? 0));
  }
  return boxes;

  function add(content: string, dy: number) {
    if (place === null) return;
    place.y += dy;
    const text = content.replace(/&gt;/g, '>').replace(/&lt;/g, '<').replace(/&amp;/g, '&').trim();
    if (text === '') return;
    const width = widthOf(text) * place.size * place.weight;
    const left = place.anchor === 'end' ? place.x - width : place.anchor === 'middle' ? place.x - width / 2 : place.x;
    boxes.push({ text, left, right: left + width, top: place.y - 0.72 * place.size, bottom: place.y });
  }
}

function shiftOf(attributes: string): [number, number] {
  const [, x = '0', y = '0'] = /translate\(([-\d.]+),\s*([-\d.]+)\)/.exec(attributes) ?? [];
  return [Number(x), Number(y)];
}
