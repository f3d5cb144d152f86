import * as Comlink from 'comlink';
import type { Picture } from '../../core/raster/index.ts';
import {
  type AroundOptions,
  type InkFit,
  type InkSuggestion,
  suggestAround,
} from '../../core/separate/index.ts';

/** A set of suggested inks, its proof small. */
export interface SuggestedInks {
  readonly inks: readonly InkSuggestion[];
  readonly advised: boolean;
  readonly beyond: boolean;
  readonly figures: Omit<InkFit, 'proof'>;
  readonly proof: ImageBitmap;
}

/** Tries inks on a piece of art in a worker of its own, so that neither the deck nor the check waits for it, nor it for them. */
const api = {
  async around(art: Picture, count: number | null, options: AroundOptions): Promise<SuggestedInks[]> {
    const tried: SuggestedInks[] = [];
    for (const { inks, advised, beyond, fit } of suggestAround(art, count, options)) {
      const { proof, ...figures } = fit;
      const { data, width } = proof;
      const image = new ImageData(new Uint8ClampedArray(data as Uint8Array<ArrayBuffer>), width as number);
      tried.push({ inks, advised, beyond, figures, proof: await createImageBitmap(image) });
    }
    return Comlink.transfer(
      tried,
      tried.map((t) => t.proof),
    );
  },
};

export type SuggestWorker = typeof api;
Comlink.expose(api);
