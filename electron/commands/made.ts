import type { Placed } from './artOptions.ts';
import { sayJson, type Voice } from './say.ts';

/** What `new` and `add` say when they are done: the face, its art and its inks in pull order. */
export function sayMade(voice: Voice, json: boolean, path: string, { job, face }: Placed): void {
  const { art, inks } = job.faces[face];
  if (json) {
    sayJson(voice, {
      job: path,
      name: job.name,
      face,
      deck: job.deck.name,
      art: art.map(({ name, width, height, wrap }) => ({ name, width, height, wrap })),
      inks: inks.map(({ id, name, hex, role, gain }, i) => ({
        pull: i + 1,
        id,
        name,
        hex,
        role,
        gain: gain ?? 0,
      })),
    });
    return;
  }
  voice.out(`${path}: ${face} face, ${job.deck.name}\n`);
  for (const piece of art) {
    const ink = piece.layer && inks.find(({ id }) => id === piece.layer?.ink);
    const layer = piece.layer
      ? ink
        ? `, prints ${ink.name} (${piece.layer.takes})`
        : ', prints nothing'
      : '';
    voice.out(
      `  art     ${piece.name}, ${piece.width.toFixed(1)} × ${piece.height.toFixed(1)} mm${layer}${piece.hidden ? ', hidden' : ''}\n`,
    );
  }
  for (const [i, ink] of inks.entries())
    voice.out(`  pull ${i + 1}  ${ink.hex}  ${ink.name}${ink.role === 'base' ? ' (base)' : ''}\n`);
}
