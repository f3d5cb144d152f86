/**
 * Messages between the page and the browser host: JSON text with the bytes it mentions after it.
 * Four bytes little-endian: length of the text; the text, in which `{"$bytes": n}` stands for the next n bytes; the bytes
 * one after another.
 */
const MARK = '$bytes';

export function packMessage(value: unknown): Uint8Array<ArrayBuffer> {
  const parts: Uint8Array[] = [];
  const text = new TextEncoder().encode(
    JSON.stringify(value, function (this: Record<string, unknown>, key: string, given: unknown) {
      // Node's own Buffer has turned itself into an object by now; the holder still has it.
      const own = this[key];
      const v = own instanceof Uint8Array ? own : given;
      if (!(v instanceof Uint8Array || v instanceof Uint8ClampedArray)) return v;
      parts.push(new Uint8Array(v.buffer, v.byteOffset, v.byteLength));
      return { [MARK]: v.byteLength };
    }) ?? 'null',
  );
  const out = new Uint8Array(4 + text.length + parts.reduce((sum, part) => sum + part.length, 0));
  new DataView(out.buffer).setUint32(0, text.length, true);
  out.set(text, 4);
  let at = 4 + text.length;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** The value again; the byte arrays are views into `message`. Throws a `SyntaxError` on anything else. */
export function unpackMessage(message: Uint8Array): unknown {
  if (message.length < 4) throw new SyntaxError('The message is cut off.');
  const length = new DataView(message.buffer, message.byteOffset).getUint32(0, true);
  if (length > message.length - 4) throw new SyntaxError('The message is cut off.');
  let at = 4 + length;
  const value: unknown = JSON.parse(new TextDecoder().decode(message.subarray(4, at)));
  const fill = (v: unknown): unknown => {
    if (v === null || typeof v !== 'object') return v;
    if (Array.isArray(v)) return v.map(fill);
    const entries = Object.entries(v);
    const [first] = entries;
    if (entries.length === 1 && first?.[0] === MARK) {
      const count = first[1] as unknown;
      if (typeof count !== 'number' || !Number.isInteger(count) || count < 0 || count > message.length - at)
        throw new SyntaxError('The message is cut off.');
      at += count;
      return message.subarray(at - count, at);
    }
    // No `__proto__` from outside becomes anyone's prototype.
    return Object.fromEntries(entries.map(([key, each]) => [key, fill(each)]));
  };
  const filled = fill(value);
  if (at !== message.length) throw new SyntaxError('The message has bytes that belong to nothing.');
  return filled;
}
