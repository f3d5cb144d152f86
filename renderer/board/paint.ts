import { fineOf, formatLength, type StudioState } from '../state/index.ts';
import { type DeckScene, drawDeck } from './drawDeck.ts';
import { drawDropped } from './drawDropped.ts';
import { drawFilm } from './drawFilms.ts';
import { drawFine } from './drawFine.ts';
import { drawGuides, drawKicks, drawOwnGuides, drawPointer, drawSnaps, type SnapLine } from './drawGuides.ts';
import { drawHand } from './drawHand.ts';
import { drawMeasures } from './drawMeasures.ts';
import { drawRulers } from './drawRulers.ts';
import { drawSpreads } from './drawSpreads.ts';
import { faceShape } from './faceShape.ts';
import { type BoardColours, inMm, type Pen, stamp, trace } from './pen.ts';
import { StillPictures } from './stillPictures.ts';

/** How many times its usual size the page's type has; browsers' own type is 16 px. */
export const typeSize = (): number =>
  Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;

/** The board's colours as the style sheet now has them. */
export function readColours(): BoardColours {
  const style = getComputedStyle(document.documentElement);
  const get = (name: string) => style.getPropertyValue(name).trim();
  return {
    ground: get('--bench'),
    ink: get('--ink'),
    faint: get('--ink-soft'),
    accent: get('--accent'),
    paper: get('--paper'),
    warn: get('--warn'),
    good: get('--good'),
    font: get('--type'),
    size: typeSize(),
  };
}

const layerOf = (state: StudioState): DeckScene['layer'] => {
  const face = state.job?.faces[state.face];
  if (!face || state.station === 'deck' || face.art.length === 0) return 'bare';
  if (state.dragging || face.inks.length === 0 || state.proofs?.face !== state.face) return 'art';
  if (state.station === 'art') return state.layer;
  if (state.station === 'films' && state.filmView === 'film' && state.proofs.alone) return 'film';
  return state.aloneId !== null && state.station === 'inks' && state.proofs.alone ? 'alone' : 'proof';
};

/** The deck and what lies on it, which change far less often than the board is drawn. */
const still = new StillPictures();

/** What lies beneath the handles: the deck and what is on it. */
export function paintBelow(pen: Pen, state: StudioState): void {
  const { job } = state;
  if (!job) return;
  const face = job.faces[state.face];
  const shape = faceShape(job, state.face);
  const veneer = job.veneers.find((v) => v.id === state.veneerId) ?? job.veneers[0]!;
  const own = state.proofs?.face === state.face ? state.proofs : null;
  const moved = state.station === 'traps' && state.moved ? state.movedProof : null;
  const shifted = moved?.face === state.face ? moved : null;
  const hatches = state.station === 'traps' && !shifted;
  const layer = layerOf(state);
  const divider = state.station === 'inks' && layer !== 'art' ? state.divider : null;
  const ghosts = state.station === 'art' ? state.selection : [];
  const proofs = own && shifted ? { ...own, proof: shifted.picture, box: shifted.box } : own;
  const spreads = hatches && own ? own.spreads : null;
  const printed =
    layer === 'proof' ? proofs?.proof : layer === 'art' || layer === 'bare' ? null : proofs?.alone;
  const drawn = layer === 'art' || divider !== null || ghosts.length > 0;
  const made = [shape, veneer.hex, layer, printed, proofs?.box, divider, spreads, hatches, ghosts.join(' ')];
  still.draw(pen, [...made, ...(drawn ? [face.art, state.pictures] : [])], (sheet) => {
    const { art } = face;
    const { pictures } = state;
    drawDeck(sheet, { shape, veneerHex: veneer.hex, proofs, layer, divider, art, pictures, ghosts, hatches });
    if (own && spreads) drawSpreads(sheet, own.box, spreads);
  });
  const { heat } = state;
  if (state.station === 'deck' && state.showHeat && heat?.face === state.face)
    inMm(pen, (ctx) => {
      ctx.beginPath();
      trace(ctx, shape.outline);
      ctx.clip();
      stamp(ctx, heat.picture, heat.box);
    });
  if (state.station === 'screens') {
    const fine = fineOf(state);
    if (fine) {
      // The print steps back, so that what is fine on the film stands out.
      inMm(pen, (ctx) => {
        ctx.beginPath();
        trace(ctx, shape.outline);
        ctx.globalAlpha = 0.6;
        ctx.fillStyle = pen.colours.paper;
        ctx.fill();
      });
      drawFine(pen, fine.measure, fine.finestHeld);
    }
  }
  if (state.station === 'art' || state.station === 'deck') drawGuides(pen, shape);
}

/** What lies above them: measures, sheets, snapped lines, rulers. */
export function paintAbove(pen: Pen, state: StudioState, lines: readonly SnapLine[]): void {
  const { job } = state;
  if (!job) return;
  const shape = faceShape(job, state.face);
  const say = (mm: number) => formatLength(mm, job.units);
  if (state.station === 'deck') {
    drawKicks(pen, shape);
    drawMeasures(pen, shape, job.deck.width, say);
  }
  if (state.station === 'films' && state.filmPlan?.face === state.face) {
    const { films } = state.filmPlan;
    const film = films.find((f) => f.inkId === state.inkId) ?? films[0];
    if (film) drawFilm(pen, film, say);
  }
  if (state.station === 'inks') {
    if (state.showDropped && state.proofs?.face === state.face) drawDropped(pen, state.proofs.dropped);
    drawHand(pen, state);
  }
  if (state.pointer) drawPointer(pen, state.pointer.s, state.pointer.t);
  drawSnaps(pen, lines);
  drawRulers(pen, job.units);
  const { guides } = job.faces[state.face];
  if (guides && (state.station === 'art' || state.station === 'deck')) drawOwnGuides(pen, guides);
}
