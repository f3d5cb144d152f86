import { execFileSync, spawnSync } from 'node:child_process';
import { deflateRawSync } from 'node:zlib';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { expect, test } from 'vitest';
import { hashOf, plainUnpacking, unpackJob } from '../../core/job/index.ts';
import { zipEntries } from '../../core/job/zipEntries.ts';
import { nodeUnpacking, unpackJobFile } from '../../electron/host/index.ts';

const PYTHON = spawnSync('python3', ['--version']).status === 0;
const ON_BOTH = [
  ['by Node', nodeUnpacking],
  ['in plain JavaScript', plainUnpacking],
] as const;

/** A zip by Python's zipfile: stored, deflated, a folder, a name that is not ASCII, a comment; or all of it in zip64 records. */
function zipByPython(zip64: boolean): Uint8Array {
  const script = `
import io, sys, zipfile
out = io.BytesIO()
with zipfile.ZipFile(out, 'w') as z:
    for name, how, data in [('plain.txt', zipfile.ZIP_STORED, b'as it is'), ('folder/', zipfile.ZIP_STORED, b''),
                            ('bänke.txt', zipfile.ZIP_DEFLATED, b'maple ' * 900), ('nothing', zipfile.ZIP_DEFLATED, b'')]:
        info = zipfile.ZipInfo(name); info.compress_type = how
        with z.open(info, 'w', force_zip64=${zip64 ? 'True' : 'False'}) as f: f.write(data)
    z.comment = b'from the bench'
sys.stdout.buffer.write(out.getvalue())`;
  return new Uint8Array(execFileSync('python3', ['-c', script]));
}

const unpacked = (zip: Uint8Array, by: typeof nodeUnpacking) =>
  [...zipEntries(zip)].map(({ name, packed, deflated, size }) => [
    name,
    Buffer.from(deflated ? by.inflate(packed, size) : packed).toString(),
  ]);

test.skipIf(!PYTHON).each([false, true])('a zip of another program is read, zip64 or not: %s', (zip64) => {
  const zip = zipByPython(zip64);
  for (const [, by] of ON_BOTH)
    expect(unpacked(zip, by)).toEqual([
      ['plain.txt', 'as it is'],
      ['folder/', ''],
      ['bänke.txt', 'maple '.repeat(900)],
      ['nothing', ''],
    ]);
});

test('sizes that did not fit are read from zip64’s extra field and end record (APPNOTE 4.3.14, 4.5.3)', () => {
  const zip = zip64Of('far.txt', strToU8('far away '.repeat(500)));
  expect(new TextDecoder().decode(unzipSync(zip)['far.txt'])).toBe('far away '.repeat(500));
  for (const [, by] of ON_BOTH) expect(unpacked(zip, by)).toEqual([['far.txt', 'far away '.repeat(500)]]);
});

/** One deflated entry whose sizes and place all lie in zip64 fields. */
function zip64Of(name: string, data: Uint8Array): Uint8Array {
  const packed = deflateRawSync(data);
  const named = Buffer.from(name);
  const local = Buffer.alloc(30);
  local.writeUInt32LE(0x04034b50, 0);
  local.writeUInt16LE(8, 8);
  local.writeUInt16LE(named.length, 26);
  const start = local.length + named.length + packed.length;
  const entry = Buffer.alloc(46);
  entry.writeUInt32LE(0x02014b50, 0);
  entry.writeUInt16LE(8, 10);
  entry.writeUInt32LE(0xffffffff, 20);
  entry.writeUInt32LE(0xffffffff, 24);
  entry.writeUInt16LE(named.length, 28);
  entry.writeUInt16LE(28, 30);
  entry.writeUInt32LE(0xffffffff, 42);
  const extra = Buffer.alloc(28);
  extra.writeUInt16LE(1, 0);
  extra.writeUInt16LE(24, 2);
  extra.writeBigUInt64LE(BigInt(data.length), 4);
  extra.writeBigUInt64LE(BigInt(packed.length), 12);
  const end64 = Buffer.alloc(56);
  end64.writeUInt32LE(0x06064b50, 0);
  end64.writeBigUInt64LE(44n, 4);
  end64.writeBigUInt64LE(1n, 32);
  end64.writeBigUInt64LE(BigInt(start), 48);
  const locator = Buffer.alloc(20);
  locator.writeUInt32LE(0x07064b50, 0);
  locator.writeBigUInt64LE(BigInt(start + entry.length + named.length + extra.length), 8);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(0xffff, 8);
  end.writeUInt32LE(0xffffffff, 16);
  return new Uint8Array(Buffer.concat([local, named, packed, entry, named, extra, end64, locator, end]));
}

test('both name art alike', () => {
  const bytes = strToU8('maple '.repeat(1000));
  expect(nodeUnpacking.hashOf(bytes)).toBe(hashOf(bytes));
});

test.each(ON_BOTH)('%s, deflate that is cut short or is none is an error, not less art', (_, by) => {
  const packed = new Uint8Array(deflateRawSync(strToU8('seven plies of maple '.repeat(200))));
  expect(by.inflate(packed, 4200)).toHaveLength(4200);
  expect(() => by.inflate(packed.subarray(0, packed.length - 4), 4200)).toThrow();
  expect(() => by.inflate(Uint8Array.of(0xff, 0xff, 0xff, 0xff), 4200)).toThrow();
});

test('a damaged job file is refused in the same words by both, or is whole for both', () => {
  const whole = zipSync({ 'job.json': strToU8(JSON.stringify({ version: 1, name: 'Heron '.repeat(300) })) });
  const said = (bytes: Uint8Array, open: typeof unpackJobFile) => {
    const read = open(bytes);
    return read.ok ? 'whole' : read.reason;
  };
  const words = new Set<string>();
  for (let at = 0; at < whole.length; at++) {
    const cut = whole.subarray(0, at);
    expect(said(cut, unpackJobFile)).toBe(said(cut, unpackJob));
    const changed = whole.slice();
    changed[at] = (changed[at] as number) ^ 0x41;
    const [ours, plain] = [said(changed, unpackJobFile), said(changed, unpackJob)];
    // A stream that unpacks to more than it should is cut there in plain JavaScript, and is then no JSON.
    if (ours !== plain) expect([ours, plain].sort()).toEqual(TOO_LONG);
    words.add(ours);
  }
  expect(words.size).toBeGreaterThan(3);
});

const TOO_LONG = [
  expect.stringContaining('can not be read as JSON'),
  expect.stringContaining('a part of it is missing'),
];
