/** Words of English in what German says: every one that English forms are made of and German is not. */
import { germanTexts } from '../../src/german/index.ts';
import { englishTexts } from '../../src/report/index.ts';

/** Names of members and what stands in quotes are data. */
const inGerman = Object.values(germanTexts.expected).join(' ');
export const wordsOfEnglish: ReadonlySet<string> = new Set(
  Object.values(englishTexts.expected)
    .flatMap((text) => text.replace(/\{\w+\}/g, ' ').match(/(?<![\w.])[a-z]{2,}(?![\w(])/g) ?? [])
    .filter((word) => !new RegExp(`(?<![\\wäöüß])${word}(?![\\wäöüß])`).test(inGerman)),
);
const data = /'[^']*'|`\w+`|\{ .* \}|eine[sm] von (?!')[\w, ]+|cumulativeCounts\(.*\)|Date\.parse|getTime\(\)/g;
/** The name of a table may be one's own. */
const tableName = /(?<=eine Klasse nach )[A-Z][^:;]*/;

export function englishIn(text: string): string[] {
  return (
    text
      .replace(tableName, ' ')
      .replace(data, ' ')
      .match(/(?<![\w.])[a-z]{2,}(?![\w(])/g) ?? []
  ).filter((word) => wordsOfEnglish.has(word));
}
