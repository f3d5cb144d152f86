import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { writeGpl } from '../../../core/colour/index.ts';
import { inkFrom } from '../../../core/job/index.ts';
import {
  EMPTY_SHOP,
  readPaletteInks,
  readShop,
  type ShelfInk,
  type Shop,
  shelfInk,
  shelfOf,
  withoutShelfInk,
  withShelfInks,
} from '../../../core/shop/index.ts';

const coral: ShelfInk = { name: 'Coral', hex: '#e8613c', opacity: 0.82, kind: 'opaque', price: 14 };
const pearl: ShelfInk = {
  name: 'Pearl',
  hex: '#e9e4dc',
  kind: 'pearlescent',
  measured: { overBlackHex: '#303030', overWhiteHex: '#eeeae2' },
};
const shop: Shop = { ...EMPTY_SHOP, inks: [coral, pearl, { name: 'Mystery', price: 9 }] };
const added = (more: readonly ShelfInk[]): Shop => {
  const made = withShelfInks(shop, more);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
};

test('the shelf is the shop’s inks of known colour, and comes back from its file', () => {
  expect(shelfOf(shop)).toEqual([coral, pearl]);
  expect(readShop(JSON.parse(JSON.stringify(shop)))).toEqual({ ok: true, value: shop });
});

test('any palette is taken: GIMP palette text, JSON; a colour that occurs twice once', () => {
  const gpl = 'GIMP Palette\nName: Bottles\n#\n232  97  60\tCoral\n 27 36 64 Night blue\n232 97 60 Again\n';
  expect(readPaletteInks(gpl)).toEqual({
    ok: true,
    value: [
      { name: 'Coral', hex: '#e8613c' },
      { name: 'Night blue', hex: '#1b2440' },
    ],
  });
  expect(readPaletteInks('[{"name":"Coral","hex":"#E8613C"}]').ok).toBe(true);
  for (const bad of ['{"colours":[{"name":"x"}]}', '', 'ink', '{'])
    expect(readPaletteInks(bad)).toMatchObject({ ok: false, kind: 'input' });
});

/** Python's own reading of the documented text: three numbers, white space, the name. */
test('GIMP palette text is what its documented form says, read by another language', () => {
  const script = `import re,sys,json
lines=sys.stdin.read().split('\\n')
assert lines[0]=='GIMP Palette' and lines[1].startswith('Name: ')
print(json.dumps([[int(m[1]),int(m[2]),int(m[3]),m[4]] for m in (re.match(r'^\\s*(\\d+)\\s+(\\d+)\\s+(\\d+)\\s+(.*)$',l) for l in lines) if m]))`;
  const text = writeGpl('Ink shelf', shelfOf(shop));
  const read = JSON.parse(execFileSync('python3', ['-c', script], { input: text }).toString());
  expect(read).toEqual([
    [232, 97, 60, 'Coral'],
    [233, 228, 220, 'Pearl'],
  ]);
});

test('inks come on the shelf and none is lost: same colour told anew, same name numbered, unknown colour filled in', () => {
  const inks = added([
    { name: 'Sunset', hex: '#e8613c' },
    { name: 'pearl', hex: '#ff7755' },
    { name: 'Mystery', hex: '#102030' },
  ]).inks;
  expect(inks.map(({ name, hex }) => `${name} ${hex}`)).toEqual([
    'Sunset #e8613c',
    'Pearl #e9e4dc',
    'Mystery #102030',
    'pearl 2 #ff7755',
  ]);
  expect(inks[0]).toMatchObject({ opacity: 0.82, price: 14 });
  expect(inks[2]).toMatchObject({ price: 9 });
  const many = Array.from({ length: 501 }, (_, i) => ({
    name: `Ink ${i}`,
    hex: `#${(0x100000 + i).toString(16)}`,
  }));
  expect(withShelfInks(shop, many)).toMatchObject({ ok: false, kind: 'input' });
  expect(withoutShelfInk(shop, coral.hex).inks.map((i) => i.name)).toEqual(['Pearl', 'Mystery']);
});

test('of a job’s ink the shelf keeps how it looks and its mesh, not its place in the job', () => {
  const red = inkFrom({ name: 'Red', hex: '#e8613c', opacity: 0.5, needsBase: 'all', kept: true }, []);
  expect(shelfInk(red)).toEqual({ name: 'Red', hex: '#e8613c', opacity: 0.5, kind: 'opaque', meshPerCm: 77 });
});
