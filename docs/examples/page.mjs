// A page of 80 columns: headings, tables and wrapped sentences for a terminal, a pipe or an e-mail.
const width = 80;

export function heading(text) {
  console.log(`\n${text}\n${'='.repeat(text.length)}`);
}

export function subheading(text) {
  console.log(`\n${text}\n${'-'.repeat(text.length)}`);
}

/** A table: the first column to the left, the others to the right, or as `align` says ('l' or 'r' for each column). */
export function table(header, rows, align = header.map((_name, i) => (i === 0 ? 'l' : 'r')).join('')) {
  const all = [header, ...rows].map((row) => row.map(String));
  const widths = header.map((_name, i) => Math.max(...all.map((row) => row[i].length)));
  for (const row of all) {
    const cells = row.map((cell, i) => (align[i] === 'l' ? cell.padEnd(widths[i]) : cell.padStart(widths[i])));
    console.log(`  ${cells.join('  ')}`.trimEnd());
  }
}

/** A sentence, wrapped; lines after the first begin with `hanging`. */
export function say(text, indent = '  ', hanging = indent) {
  let line = indent;
  let empty = true;
  for (const word of text.split(' ')) {
    if (line.length + word.length > width && !empty) {
      console.log(line.trimEnd());
      line = hanging;
    }
    line += `${word} `;
    empty = false;
  }
  console.log(line.trimEnd());
}

/** A count as people write it: whole above a hundred, else three digits. */
export function shown(count) {
  return count >= 100 ? String(Math.round(count)) : String(Number(count.toPrecision(3)));
}
