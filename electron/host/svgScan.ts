import { drawingTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';

/** Elements a drawing may have; a rich full-deck drawing has a few thousand. Beyond this a render takes over 8 s. */
const MOST_ELEMENTS = 200_000;
/** Elements drawn once every `use` is carried out; copies of copies grow without bound. */
const MOST_DRAWN = 400_000;
/** The library draws at most 500 groups inside each other, our frame included. */
const DEEPEST = 400;
/** Steps the count of copies may take; more than this is a bomb whatever its result. */
const MOST_STEPS = 5_000_000;

/** An element directly in the root, from its `<` to just after its end. */
export interface TopElement {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  readonly id: string;
  /** What an editor calls it: an attribute `label` of whatever namespace. */
  readonly label: string;
  /** Not drawn, as its own attributes say. */
  readonly hidden: boolean;
}

/** What a scan of an SVG's text found. Offsets are into the text. */
export interface SvgScan {
  readonly text: string;
  /** The root's tag: from its `<` to just after its `>`. */
  readonly rootStart: number;
  readonly rootEnd: number;
  /** The root's name with its prefix, if any: `svg` or `svg:svg`. */
  readonly rootName: string;
  readonly rootEmpty: boolean;
  readonly rootAttributes: ReadonlyMap<string, string>;
  /** Pictures embedded as base64, each still encoded. */
  readonly embedded: readonly string[];
  /** What stands directly in the root, in order. */
  readonly top: readonly TopElement[];
}

const PREDEFINED: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };
const decode = (value: string): string =>
  value.replace(/&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(lt|gt|amp|quot|apos));/gi, (all, hex, dec, name) => {
    if (name) return PREDEFINED[(name as string).toLowerCase()] ?? all;
    const code = hex ? Number.parseInt(hex, 16) : Number(dec);
    return code <= 0x10ffff ? String.fromCodePoint(code) : all;
  });

const localName = (name: string) => name.slice(name.indexOf(':') + 1);

/** `onclick` and its like; SVG has no other attribute that begins so and goes on in lower case. */
const HANDLER = /^on[a-z]+$/;
const EMBEDDED = /^data:image\/(?:png|jpe?g|gif|webp|avif)\s*;\s*base64\s*,/i;
const ATTRIBUTE = /([^\s=/<>"']+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/g;

const external = (name: string) => drawingTrouble.refersOutside(name);
const scripted = (name: string) => drawingTrouble.script(name);
const cutOff = (name: string) => drawingTrouble.cutShort(name);

/** Every `url(...)` of a style must point inside the drawing. */
function stylesInside(value: string): boolean {
  if (/@import/i.test(value)) return false;
  for (const match of value.matchAll(/url\(\s*(?:"([^"]*)"|'([^']*)'|([^)]*))/gi)) {
    const target = (match[1] ?? match[2] ?? match[3] ?? '').trim();
    if (!target.startsWith('#') && !/^data:(?:image|font|application\/(?:x-)?font)/i.test(target))
      return false;
  }
  return true;
}

/** How many elements are drawn when copies are copied, or more than `MOST_DRAWN` when it grows too far. */
function drawnElements(
  ends: readonly number[],
  ids: ReadonlyMap<string, number>,
  uses: readonly { readonly at: number; readonly target: string }[],
): number {
  const known = new Map<number, number>();
  let steps = 0;
  const within = (start: number, end: number): number => {
    const before = known.get(start);
    if (before !== undefined) return before;
    // While it is being counted it counts as endless: a copy of itself.
    known.set(start, Number.POSITIVE_INFINITY);
    let low = 0;
    let high = uses.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if ((uses[middle] as { at: number }).at < start) low = middle + 1;
      else high = middle;
    }
    let total = end - start;
    for (let i = low; i < uses.length && (uses[i] as { at: number }).at < end; i++) {
      if (++steps > MOST_STEPS || total > MOST_DRAWN) return Number.POSITIVE_INFINITY;
      const target = ids.get((uses[i] as { target: string }).target);
      if (target !== undefined) total += within(target, ends[target] as number);
    }
    known.set(start, total);
    return total;
  };
  return within(0, ends[0] ?? 0);
}

/**
 * Reads an SVG's text once from end to end and refuses what a drawing for a film may not hold: scripts, anything outside
 * the file, entity declarations, foreign documents, endless copies, more elements or nesting than can be drawn in time.
 */
export function scanSvg(text: string, name: string): Outcome<SvgScan> {
  const embedded: string[] = [];
  const open: { name: string; index: number }[] = [];
  const ends: number[] = [];
  const ids = new Map<string, number>();
  const uses: { at: number; target: string }[] = [];
  const top: TopElement[] = [];
  let child: Omit<TopElement, 'end'> | null = null;
  let root: Omit<SvgScan, 'text' | 'embedded' | 'top'> | null = null;
  let at = 0;
  while (true) {
    const start = text.indexOf('<', at);
    if (open.length > 0 && localName((open.at(-1) as { name: string }).name) === 'style')
      if (!stylesInside(decode(text.slice(at, start < 0 ? text.length : start)))) return external(name);
    if (start < 0) break;
    if (text.startsWith('<!--', start)) {
      const end = text.indexOf('-->', start + 4);
      if (end < 0) return cutOff(name);
      at = end + 3;
      continue;
    }
    if (text.startsWith('<![CDATA[', start)) {
      const end = text.indexOf(']]>', start + 9);
      if (end < 0) return cutOff(name);
      if (!stylesInside(text.slice(start + 9, end))) return external(name);
      at = end + 3;
      continue;
    }
    if (text.startsWith('<!', start)) {
      const end = text.indexOf('>', start);
      const subset = text.indexOf('[', start);
      if (end < 0) return cutOff(name);
      if ((subset >= 0 && subset < end) || /^<!ENTITY/i.test(text.slice(start, start + 9)))
        return drawingTrouble.entities(name);
      at = end + 1;
      continue;
    }
    if (text.startsWith('<?', start)) {
      const end = text.indexOf('?>', start);
      if (end < 0) return cutOff(name);
      if (/^<\?xml-stylesheet/i.test(text.slice(start, start + 20))) return external(name);
      at = end + 2;
      continue;
    }
    const end = tagEnd(text, start);
    if (end < 0) return cutOff(name);
    const tag = text.slice(start + 1, end - 1);
    at = end;
    if (tag.startsWith('/')) {
      const closed = open.pop();
      if (!closed || closed.name !== tag.slice(1).trim()) return drawingTrouble.tagsUnmatched(name);
      ends[closed.index] = ends.length;
      if (open.length === 1 && child) top.push({ ...child, end });
      continue;
    }
    const element = /^[^\s/>]+/.exec(tag)?.[0] ?? '';
    const local = localName(element);
    const empty = tag.endsWith('/');
    const index = ends.length;
    ends.push(index + 1);
    if (index >= MOST_ELEMENTS) return drawingTrouble.tooManyElements(name, MOST_ELEMENTS);
    if (open.length >= DEEPEST) return drawingTrouble.tooDeep(name, DEEPEST);
    if (local === 'script' || local === 'handler') return scripted(name);
    if (/^(foreignObject|iframe|embed|object)$/i.test(local))
      return drawingTrouble.foreignDocument(name, local);
    const attributes = new Map<string, string>();
    const inRoot = open.length === 1;
    for (const match of tag.slice(element.length).matchAll(ATTRIBUTE)) {
      const key = match[1] as string;
      const value = decode(match[2] ?? match[3] ?? '');
      if (root === null || inRoot) attributes.set(key, value);
      const short = localName(key);
      if (HANDLER.test(key)) return scripted(name);
      if (short === 'id') ids.set(value, index);
      if (short === 'href' || short === 'src') {
        const target = value.trim();
        if (/^[\s\p{Cc}]*javascript:/iu.test(target)) return scripted(name);
        if (target.startsWith('#')) {
          if (local === 'use') uses.push({ at: index, target: target.slice(1) });
        } else if (EMBEDDED.test(target)) embedded.push(target.slice(target.indexOf(',') + 1));
        else if (local !== 'a' && target !== '') return external(name);
      } else if (!key.startsWith('xmlns') && !stylesInside(value)) return external(name);
    }
    if (root === null) {
      if (local !== 'svg') return drawingTrouble.notSvg(name, element.slice(0, 40));
      root = {
        rootStart: start,
        rootEnd: end,
        rootName: element,
        rootEmpty: empty,
        rootAttributes: attributes,
      };
    } else if (open.length === 0) return drawingTrouble.twoRoots(name);
    if (inRoot) {
      child = {
        name: element,
        start,
        id: attributes.get('id') ?? '',
        label: [...attributes].find(([key]) => localName(key) === 'label')?.[1].trim() ?? '',
        hidden:
          attributes.get('display') === 'none' || /display\s*:\s*none/.test(attributes.get('style') ?? ''),
      };
      if (empty) top.push({ ...child, end });
    }
    if (!empty) open.push({ name: element, index });
  }
  if (root === null || open.length > 0) return cutOff(name);
  if (drawnElements(ends, ids, uses) > MOST_DRAWN) return drawingTrouble.tooManyCopies(name, MOST_DRAWN);
  return done({ text, ...root, embedded, top });
}

/** Just after the `>` that ends the tag at `start`, passing over quoted values; -1 when there is none. */
function tagEnd(text: string, start: number): number {
  let quote = '';
  for (let i = start + 1; i < text.length; i++) {
    const c = text[i] as string;
    if (quote !== '') {
      if (c === quote) quote = '';
    } else if (c === '"' || c === "'") quote = c;
    else if (c === '>') return i + 1;
  }
  return -1;
}
