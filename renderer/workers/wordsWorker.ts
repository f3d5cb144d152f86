import * as Comlink from 'comlink';
import { studioTrouble } from '../../core/sentences/index.ts';
import { type SetText, setWords, type TextSetting } from '../../core/text/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';

export interface WordsRequest {
  /** Addresses of fonts that come with the program, or the bytes of one's own. */
  readonly fonts: readonly { readonly name: string; readonly from: string | Uint8Array }[];
  readonly setting: TextSetting;
}

const fetched = new Map<string, Uint8Array>();

async function bytesOf(from: string | Uint8Array): Promise<Outcome<Uint8Array>> {
  if (typeof from !== 'string') return done(from);
  const known = fetched.get(from);
  if (known) return done(known);
  const response = await fetch(from).catch(() => null);
  if (!response?.ok) return studioTrouble.fontUnread();
  const bytes = new Uint8Array(await response.arrayBuffer());
  fetched.set(from, bytes);
  return done(bytes);
}

const api = {
  async set({ fonts, setting }: WordsRequest): Promise<Outcome<SetText & { readonly family: string }>> {
    const read = [];
    for (const { name, from } of fonts) {
      const bytes = await bytesOf(from);
      if (!bytes.ok) return bytes;
      read.push({ name, bytes: bytes.value });
    }
    return setWords({ fonts: read, setting });
  },
};

export type WordsWorker = typeof api;
Comlink.expose(api);
