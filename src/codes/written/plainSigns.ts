/** Sign for sign, with one slash, one dash for a size not counted, and one blank, as other keyboards write them. */
export function plainSigns(text: string): string {
  const slashes = text.replace(/[\u2044\u2215\uFF0F]/g, '/');
  return slashes.replace(/[\u2010-\u2015\u2212\uFF0D]/g, '-').replace(/[\t\u00A0]/g, ' ');
}
