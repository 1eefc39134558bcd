/** What the source of a table says, in the words of a language. */
import { englishSheetTexts } from '../texts/englishPages.ts';
import { wordIn } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';

/** A source in the words of a language: names of documents stay. */
export function sourceIn(source: string, words: Texts['sheet']['sourceWords']): string {
  const english = englishSheetTexts.sourceWords;
  let told = source;
  for (const name of Object.keys(english).sort((a, b) => wordIn(english, b).length - wordIn(english, a).length))
    told = told.replace(new RegExp(`\\b${wordIn(english, name)}\\b`, 'g'), () => wordIn(words, name));
  return told;
}
