import { type Art, type Fit, type Ink, idFrom, placeArt } from '../../core/job/index.ts';
import { inkNamed, inksOfLayers, takesOf } from '../../core/layerInks.ts';
import type { ArtLayer, PickedFile } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { edit, onFace, tell, useStudio } from '../state/index.ts';
import { keepArt } from './keepArt.ts';
import { shell } from './shell.ts';

interface Read {
  readonly layer: ArtLayer;
  readonly look: Picture;
  readonly facts: Parameters<typeof placeArt>[2];
}

/** Longer side at which a layer's colour is looked for, points. */
const LOOK = 400;

async function readLayer(layer: ArtLayer): Promise<Read | null> {
  const probe = await shell().probeArt(layer.bytes, layer.name);
  if (!probe.ok) {
    tell('trouble', probe.reason, probe.mend);
    return null;
  }
  const hash = await keepArt(layer.bytes, layer.name);
  if (hash === null) return null;
  const look = await shell().decodeArt(layer.bytes, layer.name, LOOK);
  if (!look.ok) {
    tell('trouble', look.reason, look.mend);
    return null;
  }
  const { mediaType, widthPx, heightPx, stated } = probe.value;
  const size = { widthPx: widthPx as number, heightPx: heightPx as number };
  return {
    layer,
    look: look.value,
    facts: { name: layer.name, hash, mediaType, ...size, stated, ground: null },
  };
}

/**
 * Places a file's layers on the shown face as one group, each for the ink it is named like; a face without inks gets one for
 * each layer that shows. The face is then separated by its layers.
 */
export async function addLayers(
  file: PickedFile,
  layers: readonly ArtLayer[],
  fit: Fit | null,
): Promise<void> {
  const read: Read[] = [];
  for (const layer of layers) {
    const one = await readLayer(layer);
    if (!one) return;
    read.push(one);
  }
  const { job, face } = useStudio.getState();
  if (!job) return;
  const first = job.faces[face].art.length === 0;
  const group = idFrom(
    file.name.replace(/\.[^.]*$/, ''),
    job.faces[face].art.flatMap((a) => (a.group === undefined ? [] : [a.group])),
  );
  // A file that says how large it is was drawn for the deck; only one that does not is fitted to it.
  const sized = read.every(({ layer, facts }) => facts.stated !== null && !layer.unsized);
  const usual = sized ? 'actual' : first ? 'cover' : 'contain';
  const options = { fit: fit ?? usual, wrap: 'surface', artDpi: null } as const;
  let placing = job;
  const placed: Art[] = [];
  for (const { facts } of read) {
    const next = placeArt(placing, face, facts, options);
    if (!next.ok) return tell('trouble', next.reason, next.mend);
    placing = next.value.job;
    placed.push(next.value.art);
  }
  const shown = read.filter(({ layer }) => !layer.hidden);
  const found = inksOfLayers(shown.map(({ layer, look }) => ({ name: layer.name, look })));
  edit(`Place ${file.name}`, (now) =>
    onFace(now, face, (f) => {
      const inks: Ink[] = f.inks.length > 0 ? f.inks : found;
      const pieces = placed.map((piece, i) => ({
        ...piece,
        group,
        hidden: read[i]!.layer.hidden,
        layer: { ink: inkNamed(inks, piece.name)?.id ?? null, takes: takesOf(read[i]!.look) },
      }));
      return { ...f, inks, art: [...f.art, ...pieces], method: 'layered' };
    }),
  );
  useStudio.setState({ selection: placed.map(({ id }) => id) });
}
