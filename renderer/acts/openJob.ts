import { type Deck, deckTemplate } from '../../core/deck/index.ts';
import { type Job, newJob } from '../../core/job/index.ts';
import type { OpenedJob, PickedFile } from '../../core/ports/index.ts';
import { startInShop } from '../../core/shop/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import { emptyHistory, NO_STROKE, tell, useStudio } from '../state/index.ts';
import { filer, forgetArt, forgetFilms, forgetGlass, givePicture } from '../workers/index.ts';
import { shell } from './shell.ts';
import { working } from './working.ts';

/** Longer side of art as the studio holds it, pixels: a deck's length at about 70 dpi, twice over. */
export const ART_SIDE = 2400;

/** Decodes a piece of art at screen resolution, for the board and for both workers. False when it can not be read. */
export async function loadPicture(hash: string, bytes: Uint8Array, name: string): Promise<boolean> {
  const decoded = await shell().decodeArt(bytes, name, ART_SIDE);
  if (!decoded.ok) {
    tell('trouble', decoded.reason, decoded.mend);
    return false;
  }
  // A host may hand over a view into a longer message, at any offset; kernels read pixels as whole words.
  const picture = { ...decoded.value, data: decoded.value.data.slice() };
  await givePicture(hash, picture);
  const width = picture.width as number;
  const image = document.createElement('canvas');
  image.width = width;
  image.height = picture.height as number;
  image.getContext('2d')?.putImageData(new ImageData(new Uint8ClampedArray(picture.data), width), 0, 0);
  const pictures = new Map(useStudio.getState().pictures);
  pictures.set(hash, { image, width, height: picture.height as number });
  useStudio.setState({ pictures });
  return true;
}

const fresh = (job: Job) => ({
  job,
  saved: job,
  history: emptyHistory,
  face: 'bottom' as const,
  selection: [],
  inkId: null,
  aloneId: null,
  veneerId: job.veneers[0]?.id ?? null,
  colourwayId: null,
  fitted: true,
  proofs: null,
  filmPlan: null,
  measures: null,
  problems: null,
  pointer: null,
  moved: null,
  movedProof: null,
  hand: null,
  handLast: null,
  stroke: NO_STROKE,
  picked: null,
  regionId: null,
});

/** A new job on a template deck; nothing is saved yet. */
export async function startJob(name: string, deck: Deck): Promise<void> {
  await Promise.all([forgetArt(), forgetFilms(), forgetGlass()]);
  useStudio.setState({
    ...fresh(startInShop(newJob({ name, deck }), useStudio.getState().shop)),
    art: new Map(),
    extra: new Map(),
    pictures: new Map(),
    fileName: '',
    handle: null,
    station: 'deck',
  });
}

/** The deck a new job starts from. */
export function firstDeck(): Deck {
  const deck = deckTemplate('popsicle-8.25');
  if (!deck) throw new Error('The popsicle-8.25 template is missing.');
  return deck;
}

/** Shows a job file's contents; says what is wrong with it otherwise and leaves what is open untouched. */
export async function showJob(opened: OpenedJob, recovered = false): Promise<boolean> {
  const file = await filer.unpack(opened.bytes);
  if (!file.ok) {
    tell('trouble', file.reason, file.mend);
    return false;
  }
  const { job, art, extra } = file.value;
  await Promise.all([forgetArt(), forgetFilms(), forgetGlass()]);
  // All of it before the job is shown: from then on it may be saved.
  await filer.replaceArt(art);
  useStudio.setState({
    ...fresh(job),
    saved: recovered ? null : job,
    art,
    extra,
    pictures: new Map(),
    fileName: opened.name,
    handle: opened.handle,
    station: job.faces.bottom.art.length + job.faces.top.art.length > 0 ? 'inks' : 'deck',
  });
  const names = new Map([...job.faces.bottom.art, ...job.faces.top.art].map((a) => [a.hash, a.name]));
  working('art', true);
  try {
    for (const [hash, bytes] of art) await loadPicture(hash, bytes, names.get(hash) ?? 'art');
  } finally {
    working('art', false);
  }
  return true;
}

const opening = async (asked: Promise<Outcome<OpenedJob>>): Promise<boolean> => {
  const opened = await asked;
  if (opened.ok) return showJob(opened.value);
  if (opened.kind !== 'cancelled') tell('trouble', opened.reason, opened.mend);
  return false;
};

export const openJob = (): Promise<boolean> => opening(shell().openJob());
export const openDemo = (): Promise<boolean> => opening(shell().openDemo());
export const openRecent = (handle: string): Promise<boolean> => opening(shell().openRecent(handle));

/** A dropped job file. */
export const openDropped = (file: PickedFile): Promise<boolean> => showJob({ ...file, handle: null });
