import { expect, test } from 'vitest';
import {
  kOverS,
  layerFromReadings,
  layerOf,
  layerOver,
  reflectanceOfKOverS,
} from '../../../core/proof/index.ts';
import table from '../../reference/colour/kubelka-munk.json';

// Values and their sources: tests/reference/colour/kubelka-munk.json.
test('a layer over a substrate reflects what the hyperbolic solution says', () => {
  for (const row of table.layers) {
    const layer = layerOf(row.K_per_length, row.S_per_length, row.thickness);
    expect(layer.r0).toBeCloseTo(row.over_ideal_black_R0, 8);
    expect(Math.sqrt(layer.t2)).toBeCloseTo(row.transmittance_T, 8);
    expect(layerOver(layer, row.substrate_R)).toBeCloseTo(row.layer_over_substrate_R, 8);
  }
});

test('coat on coat equals one thick coat', () => {
  const { K_per_length: k, S_per_length: s, coat_thickness: x, substrate_R, rows } = table.stacking;
  let under = substrate_R;
  for (const row of rows) {
    under = layerOver(layerOf(k, s, x), under);
    expect(under).toBeCloseTo(row.R_after_coat, 8);
    expect(layerOver(layerOf(k, s, x * row.coats), substrate_R)).toBeCloseTo(
      row.R_one_layer_of_same_total,
      8,
    );
  }
});

test('K over S and the reflectance of an opaque thickness are each other’s inverse', () => {
  for (const row of table.K_over_S_table) expect(kOverS(row.R)).toBeCloseTo(row.K_over_S, 7);
  for (const row of table.R_infinity_table)
    expect(reflectanceOfKOverS(row.K_over_S)).toBeCloseTo(row.R_infinity, 8);
});

test('two readings over real cards give back the layer they were made with', () => {
  for (const row of table.layers) {
    const layer = layerOf(row.K_per_length, row.S_per_length, row.thickness);
    const found = layerFromReadings(layerOver(layer, 0.04), layerOver(layer, 0.85), 0.04, 0.85);
    expect(found.r0).toBeCloseTo(layer.r0, 8);
    expect(found.t2).toBeCloseTo(layer.t2, 8);
  }
});

test('readings no layer can give still give one that never shines', () => {
  const layer = layerFromReadings(0.9, 0.2);
  expect(layer.t2).toBe(0);
  expect(layerOver(layer, 1)).toBeLessThanOrEqual(1);
});
