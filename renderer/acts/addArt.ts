import { type Fit, type Ink, inkFrom, type Job, placeArt } from '../../core/job/index.ts';
import type { PickedFile } from '../../core/ports/index.ts';
import { edit, onFace, tell, useStudio } from '../state/index.ts';
import { back } from '../workers/index.ts';
import { addLayers } from './addLayers.ts';
import { paletteToShelf } from './inkShelf.ts';
import { keepArt } from './keepArt.ts';
import { firstDeck, openDropped, startJob } from './openJob.ts';
import { shell } from './shell.ts';

/** Places one picture on the shown face; the first piece of a face brings its own inks along. */
async function addOne(file: PickedFile, fit: Fit | null): Promise<void> {
  const probe = await shell().probeArt(file.bytes, file.name);
  if (!probe.ok) return tell('trouble', probe.reason, probe.mend);
  const hash = await keepArt(file.bytes, file.name);
  if (hash === null) return;

  const { job, face } = useStudio.getState();
  if (!job) return;
  const { mediaType, widthPx, heightPx, stated, alpha } = probe.value;
  const ground = alpha ? null : await back.ground(hash);
  const first = job.faces[face].art.length === 0;
  const facts = {
    name: file.name,
    hash,
    mediaType,
    widthPx: widthPx as number,
    heightPx: heightPx as number,
    stated,
    ground,
  };
  const placed = placeArt(job, face, facts, {
    fit: fit ?? (first ? 'cover' : 'contain'),
    wrap: 'surface',
    artDpi: null,
  });
  if (!placed.ok) return tell('trouble', placed.reason, placed.mend);
  const suggested = first && job.faces[face].inks.length === 0 ? await back.suggest(hash, null, ground) : [];
  edit(`Place ${file.name}`, (now) => {
    // The document may have changed while the picture was read: only what was placed is added to it.
    const withArt: Job = onFace(now, face, (f) => ({ ...f, art: [...f.art, placed.value.art] }));
    return onFace(withArt, face, (f) => {
      if (f.inks.length > 0) return f;
      const inks: Ink[] = [];
      for (const { name, hex } of suggested.slice(0, 12)) inks.push(inkFrom({ name, hex }, inks));
      return { ...f, inks };
    });
  });
  useStudio.setState({ selection: [placed.value.art.id] });
}

/** Files the user dropped, pasted or picked: pictures are placed, a job file is opened, palettes go on the ink shelf. */
export async function addFiles(given: readonly PickedFile[], fit: Fit | null = null): Promise<void> {
  const files = given.filter((f) => !isPalette(f));
  for (const { name, bytes } of given.filter(isPalette))
    await paletteToShelf(name, new TextDecoder().decode(bytes.subarray(0, MOST_PALETTE_BYTES)));
  const jobFile = files.find((f) => f.name.toLowerCase().endsWith('.kickflat'));
  if (jobFile) {
    await openDropped(jobFile);
    return;
  }
  if (files.length === 0) return;
  if (!useStudio.getState().job)
    await startJob(files[0]!.name.replace(/\.[^.]*$/, '') || 'New job', firstDeck());
  useStudio.setState({ station: 'art' });
  const rest: PickedFile[] = [];
  for (const file of files) {
    const layered = shownMethod() === 'layered';
    // A drawing is taken by its groups only where that is what the face asks for.
    const split = mayBeLayers(file.bytes) || (layered && files.length === 1);
    const layers = split ? await shell().splitArt(file.bytes, file.name) : null;
    if (layers && !layers.ok) {
      tell('trouble', layers.reason, layers.mend);
      continue;
    }
    const parts = layers?.value ?? [];
    if (parts.length > 1) await addLayers(file, parts, fit);
    else if (parts[0]) rest.push({ name: file.name, bytes: parts[0].bytes });
    else rest.push(file);
  }
  const [first] = rest;
  if (first && shownMethod() === 'layered') {
    const plates = rest.map(({ name, bytes }) => ({
      name: name.replace(/\.[^.]*$/, ''),
      bytes,
      hidden: false,
    }));
    await addLayers(first, plates, fit);
  } else for (const file of rest) await addOne(file, fit);
}

/** More text than any palette of inks. */
export const MOST_PALETTE_BYTES = 1024 * 1024;

/** GIMP palette text, by its name or its first words. */
const isPalette = ({ name, bytes }: PickedFile): boolean =>
  /\.gpl$/i.test(name) || new TextDecoder().decode(bytes.subarray(0, 12)) === 'GIMP Palette';

function shownMethod(): string | undefined {
  const { job, face } = useStudio.getState();
  return job?.faces[face].method;
}

/** A PDF or a zip: the program says what is in it. */
function mayBeLayers(bytes: Uint8Array): boolean {
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 1024));
  return start.startsWith('PK') || start.includes('%PDF-');
}

/** Asks for pictures and places them. */
export async function pickArt(): Promise<void> {
  const picked = await shell().pickArt();
  if (picked.ok) await addFiles(picked.value);
  else if (picked.kind !== 'cancelled') tell('trouble', picked.reason, picked.mend);
}
