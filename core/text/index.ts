export { type Lettering, openFont } from './font.ts';
export { type SetText, setText } from './setText.ts';
export { LEADING, MOST_FONT_BYTES, MOST_LETTERS, MOST_LINES, type TextSetting } from './setting.ts';
export { setWords, type WordsInput } from './setWords.ts';
export { TYPEFACES, type Typeface } from './typefaces.ts';
