/**
 * A figure in words, as states, events and errors have it: `celsius`, `other acid number`, `perMlAt 6`, `code iso4406`.
 */

/** The figure of an alarm or a followed figure. */
export function figureWords(figure: object): string {
  const kind = Object.keys(figure)[0] as string;
  const value = (figure as { readonly [kind: string]: string | number })[kind];
  return kind === 'quantity' ? `${value}` : `${kind} ${value}`;
}
