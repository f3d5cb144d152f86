import type { FaceLayout, FilmLayout } from '../film/index.ts';
import type { RunPlan, WorkingHours } from '../press/index.ts';
import type { Picture } from '../raster/index.ts';

/** Decks of one veneer and colourway, as a pull's page ticks them off. */
export interface SheetLot {
  readonly veneer: string;
  readonly veneerHex: string;
  readonly colourway: string;
  /** This pull's ink in that colourway. */
  readonly ink: string;
  readonly inkHex: string;
  /** Good decks wanted, and blanks that go through. */
  readonly good: number;
  readonly start: number;
}

export interface SheetPull {
  readonly layout: FaceLayout;
  readonly film: FilmLayout;
  readonly kind: string;
  /** Label and value, in reading order. */
  readonly settings: readonly (readonly [string, string])[];
  /** Places finer than the mesh holds, film mm. */
  readonly fine: readonly (readonly [number, number])[];
  /** What the chosen mesh or plan can not do. */
  readonly warnings: readonly string[];
  readonly steps: readonly string[];
  readonly lots: readonly SheetLot[];
  /** Corrections of earlier tests, newest last. */
  readonly earlier: readonly string[];
  readonly cautions: readonly string[];
}

export interface RunSheet {
  readonly jobName: string;
  readonly shop: string;
  readonly notes: string;
  readonly pulls: readonly SheetPull[];
  readonly lots: readonly Omit<SheetLot, 'ink' | 'inkHex'>[];
  /** Large figures of the cover. */
  readonly counts: readonly (readonly [string, string])[];
  /** What to buy: name and amount. */
  readonly shopping: readonly (readonly [string, string])[];
  readonly proofs: readonly { readonly name: string; readonly picture: Picture }[];
  readonly plan: RunPlan | null;
  readonly hours: WorkingHours;
  readonly firstWeekday: number;
  readonly cautions: readonly string[];
  /** mm. */
  readonly paper: { readonly width: number; readonly height: number };
}
