import { expect, test } from 'vitest';
import { msbRows } from '../../../core/raster/index.ts';
import { msbRowsPlain } from '../../../core/raster/kernels/msbRowsPlain.ts';
import { getBit } from '../../../core/raster/mask.ts';
import { blobs, randomMask } from './randomMask.ts';

test('rows with the high bit first: both twins agree at every width to 130, and over many bands', () => {
  const masks = Array.from({ length: 130 }, (_, i) => randomMask(i + 1, 1 + ((i * 7) % 40), 0.4, i));
  for (const mask of [...masks, blobs(9001, 700, 400, 8)])
    for (const inkIsZero of [false, true]) {
      const bytes = (mask.width + 7) >>> 3;
      const plain = new Uint8Array(bytes * mask.height);
      msbRowsPlain(mask, bytes, inkIsZero ? 255 : 0, plain);
      const made = msbRows(mask, inkIsZero);
      expect(Buffer.compare(made, plain), `${mask.width} × ${mask.height}`).toBe(0);
      for (let x = 0; x < 8 * bytes; x++)
        expect((((made[x >> 3]! >> (7 - (x & 7))) & 1) === 1) !== inkIsZero).toBe(getBit(mask, x, 0));
    }
});
