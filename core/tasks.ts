import type { FillInput, PrintableInput } from './facePrintable.ts';
import {
  type Boxed,
  drawSheet,
  type FaceBoxes,
  type FaceLayout,
  type FilmLayout,
  type FilmSheets,
  faceBoxes,
  filmSeams,
  type GuidePictures,
  guidePictures,
  type LayOutRequest,
  layOutOne,
  type OwnInk,
  ownInk,
  type Plan,
  type PricedSeams,
  type SheetPicture,
  type Stencil,
  type Surveyed,
  sheetStencil,
} from './film/index.ts';
import {
  type FinenessInput,
  filmFineness,
  type MeshLoss,
  type MeshLossInput,
  meshLoss,
} from './filmFineness.ts';
import {
  type BareInput,
  bareSpecks,
  type ClipInput,
  clipInk,
  type DropInput,
  type DroppedSpeck,
  dropFaceSpecks,
} from './finishFace.ts';
import { type AssemblyOptions, assemblyPages, type PaperPage } from './paper/index.ts';
import type { FineMap } from './press/index.ts';
import { PRINT_TASKS } from './printTasks.ts';
import { blankMask, type Component, deflate, fillRings, type Mask, wakeKernels } from './raster/index.ts';
import type { UnplannedTally } from './separate/index.ts';
import { layOver } from './separateFace.ts';
import { separateTile, type TileInput } from './separateTile.ts';
import type { SetText, WordsInput } from './text/index.ts';
import { indexFace, printBed, screenInk, toneShares, toneTile } from './toneTasks.ts';
import type { TrialShown } from './trap/index.ts';
import { type TrialPart, type TriedFace, trialPart } from './trapTrials.ts';
import type { Outcome, Ring } from './units/index.ts';

export interface LayOverInput {
  readonly below: readonly Mask[];
  readonly piece: readonly Mask[];
}
export interface TrialInput {
  readonly face: TriedFace;
  readonly part: TrialPart;
}

/** What all films of a face share, from their own inks. */
export interface BoxesInput {
  readonly request: LayOutRequest;
  readonly inks: readonly OwnInk[];
}

/** One film of a face, and the ways its sheets may lie. */
export interface SeamsInput {
  readonly plans: readonly Pick<Plan, 'along' | 'across' | 'overlap'>[];
  readonly film: Boxed;
  readonly ink: OwnInk;
}

/** One film of a face to lay out. */
export interface LayOutInput {
  readonly request: LayOutRequest;
  readonly sheets: FilmSheets;
  /** What assembly.pdf shows of it is packed as well. */
  readonly show: boolean;
  /** What its sheets draw is packed as well. */
  readonly draw: boolean;
}
export interface LaidFilm {
  readonly film: FilmLayout;
  /** By sheet, see `drawSheet`, and what assembly.pdf shows of it; only where they were asked for. */
  readonly drawn: readonly Uint8Array[];
  readonly pictures: GuidePictures | null;
}
export interface AssemblyInput {
  readonly layouts: readonly FaceLayout[];
  readonly jobName: string;
  readonly pictures: AssemblyOptions['pictures'];
}

/**
 * The work that may run on other threads, by name. Masks lie in shared memory and are changed in place, so that nothing
 * large is copied back.
 */
export const TASKS = {
  /** Nothing but what a thread needs first: its program and the kernels are there when work comes. */
  wake: (): void => wakeKernels(),
  // What offsets outlines is large, and asked for once a face.
  printable: async (input: PrintableInput): Promise<Ring[]> =>
    (await import('./facePrintable.ts')).facePrintable(input),
  fillRings: ({ rings, width, height }: FillInput): Mask => fillRings(blankMask(width, height, true), rings),
  separateTile: (input: TileInput): UnplannedTally => separateTile(input),
  layOver: ({ below, piece }: LayOverInput): void => layOver(below, piece),
  clipInk: (input: ClipInput): Component[] => clipInk(input),
  bareSpecks: (input: BareInput): Component[] => bareSpecks(input),
  dropFaceSpecks: (input: DropInput): DroppedSpeck[] => dropFaceSpecks(input),
  ...PRINT_TASKS,
  trialPart: ({ face, part }: TrialInput): TrialShown[] => trialPart(face, part),
  ownInk: (film: Surveyed): OwnInk => ownInk(film),
  faceBoxes: ({ request, inks }: BoxesInput): Outcome<FaceBoxes> => faceBoxes(request, inks),
  filmSeams: ({ plans, film, ink }: SeamsInput): PricedSeams[] => filmSeams(plans, film, ink),
  layOutFilm: ({ request, sheets, draw, show }: LayOutInput): LaidFilm => {
    const laid = layOutOne(request, sheets);
    const { dpi } = laid.art;
    return {
      film: laid,
      drawn: draw ? laid.sheets.map((sheet) => drawSheet(dpi, sheet, deflate)) : [],
      pictures: show ? guidePictures(laid, dpi, deflate) : null,
    };
  },
  sheetStencil: (input: SheetPicture): Stencil => sheetStencil(input, deflate),
  // Pages alone: the library that binds them is large, and the thread that binds the films has it already.
  assemblyPages: ({ layouts, jobName, pictures }: AssemblyInput): PaperPage[][] | null =>
    assemblyPages(layouts, { jobName, deflate, pictures }),
  filmFineness: (input: FinenessInput): FineMap => filmFineness(input),
  meshLoss: (input: MeshLossInput): MeshLoss => meshLoss(input),
  toneTile,
  indexFace,
  toneShares,
  screenInk,
  printBed,
  // Type shaping is large and few jobs have words: it is loaded by who needs it.
  setWords: async (input: WordsInput): Promise<Outcome<SetText>> =>
    (await import('./text/index.ts')).setWords(input),
} as const;

/** Runs the tasks where they are called, one after another: for tests and where there are no threads. */
export const inlineWorkers = {
  count: 1,
  run: async <In, Out>(task: string, input: In): Promise<Out> =>
    (TASKS as Readonly<Record<string, (input: never) => unknown>>)[task]?.(input as never) as Out,
  close: async () => {},
};
