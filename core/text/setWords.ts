import { done, type Outcome } from '../units/index.ts';
import { type Lettering, openFont } from './font.ts';
import { type SetText, setText } from './setText.ts';
import type { TextSetting } from './setting.ts';

/** Words with the bytes of their fonts; plain data, so that a worker can take it. */
export interface WordsInput {
  /** In the order they are asked for a letter. */
  readonly fonts: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  readonly setting: TextSetting;
}

/** Reads the fonts and sets the words in them; `family` is the first font's own name. */
export function setWords({ fonts, setting }: WordsInput): Outcome<SetText & { readonly family: string }> {
  const opened: (Lettering & { readonly family: string })[] = [];
  for (const { name, bytes } of fonts) {
    const font = openFont(bytes, name);
    if (!font.ok) return font;
    opened.push(font.value);
  }
  const set = setText(opened, setting);
  return set.ok ? done({ ...set.value, family: opened[0]!.family }) : set;
}
