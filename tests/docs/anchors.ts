/** The headings of a page, as links name them. */

/** A heading as the address that a page of Markdown gives it: "Where to begin?" is `where-to-begin`. */
export function anchorsOf(text: string): string[] {
  const seen: Record<string, number> = {};
  const headings = [...text.replace(/^```[\s\S]*?^```/gm, '').matchAll(/^#{1,6} (.+)$/gm)];
  return headings.map((match) => {
    const plain = (match[1] as string).replace(/\[([^\]]*)\]\([^)]*\)/g, '$1').toLowerCase();
    const anchor = plain.replace(/[^\p{L}\p{N}\p{M}_ -]/gu, '').replaceAll(' ', '-');
    const times = seen[anchor] ?? 0;
    seen[anchor] = times + 1;
    return times === 0 ? anchor : `${anchor}-${times}`;
  });
}
