import type { Kind } from './goodInputs.ts';
import type { Chance } from './random.ts';

/** Things outside that no import may touch: an address that is listened on, and a file whose colour would show. */
export interface Bait {
  readonly address: string;
  readonly file: string;
}

/** Numbers of every unreasonable sort. */
const NUMBERS = [
  'NaN',
  '-1',
  '0',
  '-0',
  '1e999',
  '-1e999',
  '1e308',
  '1e-320',
  '99999999999999999999',
  '0x7fffffff',
  '1e9',
  'Infinity',
  '1,5',
  '',
  '٣',
  '0.1.2',
];
const WORDS = [
  '\u0000',
  '\ufeff',
  '\ud800',
  '𝟙',
  '../',
  '%00',
  '"',
  '<',
  '&#x0;',
  '\r',
  '‮',
  'null',
  '{}',
  '[]',
];

type Change = (text: string, random: Chance, bait: Bait) => string;

const insert = (text: string, at: number, what: string) => text.slice(0, at) + what + text.slice(at);

/** The nth match replaced, whichever chance says. */
function replaceOne(text: string, pattern: RegExp, random: Chance, by: (found: string) => string): string {
  const found = [...text.matchAll(pattern)];
  if (found.length === 0) return text;
  const { 0: old, index } = random.pick(found);
  return text.slice(0, index) + by(old) + text.slice(index + old.length);
}

const ANY: readonly Change[] = [
  (text, random) => replaceOne(text, /-?\d+(?:\.\d+)?/g, random, () => random.pick(NUMBERS)),
  (text, random) =>
    replaceOne(text, /-?\d+(?:\.\d+)?/g, random, (n) =>
      String(Number(n) * random.pick([-1, 1e-6, 1e3, 1e6, 1e12])),
    ),
  (text, random) => insert(text, random.int(text.length + 1), random.pick(WORDS)),
  (text, random) => text.slice(0, random.int(text.length + 1)),
  (text, random) => {
    const from = random.int(text.length + 1);
    return text.slice(0, from) + text.slice(from + 1 + random.int(40));
  },
  (text, random) => {
    const from = random.int(text.length + 1);
    const part = text.slice(from, from + 1 + random.int(120));
    return insert(text, from, part.repeat(random.pick([1, 3, 100, 5000])));
  },
  (text, random) => {
    const lines = text.split('\n');
    const line = lines.splice(random.int(lines.length), 1)[0] as string;
    lines.splice(random.int(lines.length + 1), 0, line);
    return lines.join('\n');
  },
  (text, random) => text.replaceAll('\n', random.pick(['\r', '\r\n', '', '\u2028'])),
];

const SVG: readonly Change[] = [
  (text, _, bait) =>
    text.replace('</svg>', `<image href="${bait.address}/a.png" width="50" height="50"/></svg>`),
  (text, _, bait) =>
    text.replace('</svg>', `<image xlink:href="file://${bait.file}" width="420" height="120"/></svg>`),
  (text, _, bait) => text.replace('</svg>', `<style>@import url(${bait.address}/a.css);</style></svg>`),
  (text, _, bait) =>
    text.replace('</svg>', `<rect width="50" height="50" fill="url(${bait.address}/a.svg#g)"/></svg>`),
  (text, _, bait) =>
    text.replace(
      /^(<\?xml[^>]*>)?/,
      `<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY x SYSTEM "file://${bait.file}">]>`,
    ),
  (text, _, bait) => `<?xml-stylesheet href="${bait.address}/a.css"?>${text}`,
  (text, random) => {
    const deep = random.pick([50, 500, 5000]);
    return text.replace(
      '</svg>',
      `${'<g opacity=".9">'.repeat(deep)}<path d="M0 0h9v9z"/>${'</g>'.repeat(deep)}</svg>`,
    );
  },
  (text, random) =>
    text.replace(
      '</svg>',
      `${'<rect width="9" height="9"/>'.repeat(random.pick([100, 5000, 50_000]))}</svg>`,
    ),
  (text, random) =>
    text.replace(
      '</svg>',
      `<filter id="f" x="-9" y="-9" width="${random.pick(['20', '2000', '1e9'])}" height="20"><feGaussianBlur stdDeviation="${random.pick(['3', '1e5', '-1', '1e30'])}"/><feMorphology radius="${random.pick(['2', '1e4', '1e9'])}"/></filter><rect width="99" height="99" filter="url(#f)"/></svg>`,
    ),
  (text, random) =>
    text.replace(
      '</svg>',
      `<pattern id="p" width="${random.pick(['1e-9', '0', '1e-3'])}" height="1e-3" patternUnits="userSpaceOnUse"><use href="#wave"/></pattern><rect width="420" height="120" fill="url(#p)"/></svg>`,
    ),
  (text) => text.replace('</svg>', '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g></svg>'),
  (text, random) => replaceOne(text, /<\/?\w+[^>]*>/g, random, () => ''),
  (text, random) => replaceOne(text, /<\/?\w+[^>]*>/g, random, (tag) => tag.repeat(300)),
  (text, random) =>
    replaceOne(text, /\b(?:d|points)="[^"]*"/g, random, (d) =>
      d.replace(
        /"$/,
        `${` ${random.pick(['A', 'C', 'Q', 'M', 'Z', 'h', 't'])}${random.pick(NUMBERS)} 1 1 0 0 9 9`.repeat(
          random.pick([1, 3000]),
        )}"`,
      ),
    ),
  (text, random) =>
    replaceOne(
      text,
      /<(?:g|path|rect|circle|use|text)\b/g,
      random,
      (tag) =>
        `${tag} transform="${random.pick(['scale(1e9)', 'scale(0)', 'matrix(0 0 0 0 0 0)', 'rotate(NaN)', 'skewX(90)', 'translate(1e30)'])}"`,
    ),
  (text, random) =>
    text.replace(/encoding="[^"]*"/, `encoding="${random.pick(['UTF-16', 'utf-7', 'x', 'shift_jis'])}"`),
];

const JSONS: readonly Change[] = [
  (text, random) => {
    const deep = random.pick([100, 20_000]);
    return replaceOne(text, /:\s*-?\d+/g, random, () => `:${'['.repeat(deep)}${']'.repeat(deep)}`);
  },
  (text, random) =>
    replaceOne(
      text,
      /:\s*-?[\d.]+/g,
      random,
      () => `:${random.pick(['null', '"x"', '{}', '[]', 'true', '-1', '0', '1e999', '1e308', '1e-300'])}`,
    ),
  (text, random) =>
    replaceOne(text, /"[^"]*"\s*:/g, random, () =>
      random.pick(['"__proto__":', '"constructor":', '"toString":', '"":']),
    ),
  (text, random) =>
    replaceOne(text, /"[^"]*"/g, random, () => `"${'x'.repeat(random.pick([0, 121, 100_000]))}"`),
  (text, random) => replaceOne(text, /\[|\{/g, random, (open) => (open === '[' ? '{' : '[')),
];

/** The text with one to three changes, as UTF-8 or, now and then, in another encoding. */
export function mutateText(good: Uint8Array, kind: Kind, random: Chance, bait: Bait): Uint8Array {
  let text = new TextDecoder().decode(good);
  const own =
    kind === 'svg' || kind === 'outline svg'
      ? SVG
      : kind === 'json palette' || kind === 'deck json'
        ? JSONS
        : ANY;
  for (let n = 1 + random.int(3); n > 0; n--)
    text = random
      .pick(random.int(2) === 0 ? own : ANY)(text, random, bait)
      .slice(0, 9_000_000);
  const way = random.int(16);
  if (way === 0) return new Uint8Array(Buffer.from(text, 'utf16le'));
  if (way === 1) return new Uint8Array(Buffer.from(text, 'latin1'));
  return new TextEncoder().encode(text);
}
