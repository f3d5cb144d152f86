import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { packMessage, unpackMessage } from '../../electron/wire.ts';

describe('messages between page and host', () => {
  test('values with bytes in them come back as they were, seed 3', () => {
    const leaf = fc.oneof(
      fc.string(),
      fc.double({ noNaN: true, noDefaultInfinity: true }).map((n) => n + 0),
      fc.boolean(),
      fc.constant(null),
      fc.uint8Array({ maxLength: 40 }),
    );
    const value = fc.letrec((tie) => ({
      any: fc.oneof(
        { depthSize: 'small' },
        leaf,
        fc.array(tie('any'), { maxLength: 4 }),
        fc.dictionary(fc.stringMatching(/^[a-z]{1,6}$/), tie('any'), { maxKeys: 4 }),
      ),
    })).any;
    fc.assert(
      fc.property(value, (v) => {
        expect(unpackMessage(packMessage(v))).toEqual(v);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  test('clamped bytes arrive as bytes', () => {
    const picture = { width: 1, data: new Uint8ClampedArray([1, 2, 3, 4]) };
    expect(unpackMessage(packMessage(picture))).toEqual({ width: 1, data: new Uint8Array([1, 2, 3, 4]) });
  });

  test('a Buffer arrives as bytes, not as its own JSON', () => {
    expect(unpackMessage(packMessage({ a: [Buffer.from([5, 6])] }))).toEqual({ a: [new Uint8Array([5, 6])] });
  });

  test('every cut of a message, a lying length and leftover bytes are refused', () => {
    const whole = packMessage([new Uint8Array([1, 2, 3]), 'name']);
    for (let n = 0; n < whole.length; n++)
      expect(() => unpackMessage(whole.subarray(0, n)), `first ${n} bytes`).toThrow(SyntaxError);
    expect(() => unpackMessage(new Uint8Array([...whole, 0]))).toThrow(SyntaxError);
    const lying = (text: string) => {
      const bytes = new TextEncoder().encode(text);
      return new Uint8Array([bytes.length, 0, 0, 0, ...bytes]);
    };
    for (const count of ['-1', '1e9', '0.5', '"3"'])
      expect(() => unpackMessage(lying(`{"$bytes":${count}}`))).toThrow(SyntaxError);
    const sneaky = unpackMessage(lying('{"__proto__":{"polluted":1}}')) as object;
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
    expect(Object.getPrototypeOf(sneaky)).toBe(Object.prototype);
  });
});
