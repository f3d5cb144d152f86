import { create } from 'zustand';
import type { Problem } from '../../core/check/index.ts';
import type { Face } from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import type { FilmMeasure } from '../../core/press/index.ts';
import { EMPTY_SHOP, type Shop } from '../../core/shop/index.ts';
import type { Box } from '../../core/units/index.ts';
import { type Edit, emptyHistory, type History, record, redone, seal, undone } from './edit.ts';
import { type HandStroke, type HandTool, NO_STROKE, type PickedColour } from './hand.ts';
import type { FilmPlan, Heat, InkPair, Proofs } from './shown.ts';
import type { Station, View } from './view.ts';

/** A picture of placed art at screen resolution. */
export interface ArtPicture {
  readonly image: HTMLCanvasElement;
  readonly width: number;
  readonly height: number;
}

export interface Notice {
  readonly id: number;
  readonly tone: 'done' | 'trouble' | 'note';
  readonly text: string;
  readonly mend: string;
  /** Files that were made and where the program knows them, so that they can be shown and dragged out. */
  readonly made: MadeFiles | null;
}

export interface MadeFiles {
  readonly handle: string;
  readonly names: readonly string[];
}

export interface ExportState {
  readonly done: number;
  readonly text: string;
  readonly cancel: () => void;
}

/** Everything the window knows. The document is `job`; the rest is how it is looked at. */
export interface StudioState {
  readonly job: Job | null;
  readonly art: ReadonlyMap<string, Uint8Array>;
  readonly extra: ReadonlyMap<string, Uint8Array>;
  readonly pictures: ReadonlyMap<string, ArtPicture>;
  readonly fileName: string;
  readonly handle: string | null;
  /** The document as last saved; the same object as `job` when nothing is unsaved. */
  readonly saved: Job | null;
  readonly history: History;
  readonly station: Station;
  readonly face: Face;
  /** Placed art that is selected, by id. */
  readonly selection: readonly string[];
  /** The ink whose card is open. */
  readonly inkId: string | null;
  /** The ink shown alone on the deck, or null for the proof. */
  readonly aloneId: string | null;
  readonly veneerId: string | null;
  readonly colourwayId: string | null;
  /** On the deck: the proof, or the art as it was drawn. */
  readonly layer: 'proof' | 'art';
  /** On the deck at the Deck station: where a flat film can not lie true. */
  readonly showHeat: boolean;
  readonly heat: Heat | null;
  /** The bent board in three dimensions instead of the flat deck. */
  readonly bent: boolean;
  /** On the deck at the Films station: the chosen film, or the proof. */
  readonly filmView: 'film' | 'proof';
  readonly view: View;
  /** True until the user pans or zooms: the deck then stays fitted to the window. */
  readonly fitted: boolean;
  readonly dragging: boolean;
  /** The handles of the chosen piece crop it instead of scaling it. */
  readonly cropping: boolean;
  readonly proofs: Proofs | null;
  readonly filmPlan: FilmPlan | null;
  /** The real films as they were measured, and the key of the job they were made from. */
  readonly measures: { readonly key: string; readonly films: readonly FilmMeasure[] } | null;
  readonly problems: readonly Problem[] | null;
  /** Names of work going on out of sight. */
  readonly working: readonly string[];
  readonly exporting: ExportState | null;
  readonly notices: readonly Notice[];
  /** A place on the deck to point at, surface mm. */
  readonly pointer: { readonly s: number; readonly t: number } | null;
  /** A round glass over the deck at the films' own resolution; where it looks, surface mm. */
  readonly loupe: { readonly s: number; readonly t: number } | null;
  /** At the Traps station: the pair whose spread alone is hatched; null: every spread. */
  readonly pair: InkPair | null;
  /** At the Traps station: one pull out of register, mm, and the face as that prints. */
  readonly moved: { readonly inkId: string; readonly along: number; readonly across: number } | null;
  readonly movedProof: { readonly face: Face; readonly box: Box; readonly picture: ImageBitmap } | null;
  /** At the Inks station: the art as drawn lies left of this share of the deck's length; null: no divider. */
  readonly divider: number | null;
  /** The page of the guide that lies open, from 0; null: shut. */
  readonly guidePage: number | null;
  /** What the shop has and how it works, kept by the program apart from the job. */
  readonly shop: Shop;
  /** At the Inks station: the tool in the hand, or null; and the one last held. */
  readonly hand: HandTool | null;
  readonly handLast: HandTool | null;
  readonly stroke: HandStroke;
  readonly picked: PickedColour | null;
  /** Specks that were dropped are marked on the deck. */
  readonly showDropped: boolean;
  /** A region given by hand that is outlined on the deck. */
  readonly regionId: { readonly art: string; readonly id: string } | null;
}

export const useStudio = create<StudioState>()(() => ({
  job: null,
  art: new Map(),
  extra: new Map(),
  pictures: new Map(),
  fileName: '',
  handle: null,
  saved: null,
  history: emptyHistory,
  station: 'deck',
  face: 'bottom',
  selection: [],
  inkId: null,
  aloneId: null,
  veneerId: null,
  colourwayId: null,
  layer: 'proof',
  showHeat: false,
  heat: null,
  bent: false,
  filmView: 'film',
  view: { s: 0, t: 0, scale: 1 },
  fitted: true,
  dragging: false,
  cropping: false,
  proofs: null,
  filmPlan: null,
  measures: null,
  problems: null,
  working: [],
  exporting: null,
  notices: [],
  pointer: null,
  loupe: null,
  pair: null,
  moved: null,
  movedProof: null,
  divider: null,
  guidePage: null,
  shop: EMPTY_SHOP,
  hand: null,
  handLast: null,
  stroke: NO_STROKE,
  picked: null,
  showDropped: false,
  regionId: null,
}));

const set = useStudio.setState;
const get = useStudio.getState;

/** Changes the document as one named, undoable step. A change that returns the same document is no step. */
export function edit(label: string, change: (job: Job) => Job, squash: string | null = null): void {
  const { job, history } = get();
  if (!job) return;
  const after = change(job);
  if (after === job) return;
  const step: Edit = { label, before: job, after, squash };
  set({ job: after, history: record(history, step) });
}

/** A drag or a run of key presses is over. */
export const sealEdits = (): void => set({ history: seal(get().history) });

export function undo(): void {
  const step = undone(get().history);
  if (step) set({ job: step.job, history: step.history });
}

export function redo(): void {
  const step = redone(get().history);
  if (step) set({ job: step.job, history: step.history });
}

let notices = 0;
/** Says something in a strip at the edge of the window. */
export function tell(tone: Notice['tone'], text: string, mend = '', made: MadeFiles | null = null): void {
  const notice = { id: ++notices, tone, text, mend, made };
  set({ notices: [...get().notices.filter((n) => n.text !== text), notice].slice(-4) });
}
export const dismiss = (id: number): void => set({ notices: get().notices.filter((n) => n.id !== id) });
