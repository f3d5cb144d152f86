import { inkCellsFast } from './kernels/cellsFast.ts';
import { type CellGrid, inkCellsPlain } from './kernels/cellsPlain.ts';
import { kernels } from './kernels/load.ts';
import type { Mask } from './mask.ts';

/** 1 for each cell of a coarse grid in which the mask has ink, a byte a cell in the grid's order; beyond the mask it is bare. */
export function inkCells(mask: Mask, grid: CellGrid): Uint8Array {
  const fast = kernels();
  return fast ? inkCellsFast(fast, mask, grid) : inkCellsPlain(mask, grid);
}
