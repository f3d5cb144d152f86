import { type Face, holesOnSurface } from './deck/index.ts';
import { deckMask, type FaceRaster, faceRaster } from './faceRaster.ts';
import type { DroppedSpeck } from './finishFace.ts';
import { inkFace } from './inkFace.ts';
import type { InkMemory } from './inkMemory.ts';
import { DEFAULT_HALFTONE, type Ink, type Job, LEAST_CELL, screensDots } from './job/index.ts';
import { layersOf } from './layers.ts';
import { onBaseOf } from './printInk.ts';
import { composePulls, type InkLook, shiftPlane } from './proof/index.ts';
import {
  blankMask,
  downsample,
  fillRings,
  isBlank,
  type Mask,
  type Picture,
  type Plane,
} from './raster/index.ts';
import { filmTrouble, jobTrouble } from './sentences/index.ts';
import { inkScreen } from './tonePlan.ts';
import { randomStream } from './trap/index.ts';
import { type Box, done, type Outcome, pxPerMm, type Ring } from './units/index.ts';

/** A face's separations and prints along the wood, inks in pull order. */
export interface FacePreview {
  /** Surface mm; row 0 is the top. */
  readonly box: Box;
  readonly width: number;
  readonly height: number;
  readonly dpi: number;
  readonly separations: readonly Mask[];
  /** With traps and base; the separations themselves where traps were not asked for. */
  readonly prints: readonly Mask[];
  readonly deck: Mask;
  readonly holes: Mask;
  /** Specks and holes that were dropped, in points; left out: not looked for. */
  readonly dropped?: readonly DroppedSpeck[];
}

/** A layered face needs a layer that is for one of its inks. */
export function refuseMethod(job: Job, face: Face): Outcome<null> {
  const settings = job.faces[face];
  if (settings.method !== 'layered' || layersOf(settings).length > 0) return done(null);
  return jobTrouble.noLayerForInks(face);
}

/** Films need dots of the ruling that is asked for, and not the grain that may stand for them in a proof. */
export function refuseScreen(job: Job, face: Face, dpi: number): Outcome<null> {
  const settings = job.faces[face];
  if (!screensDots(settings) || inkScreen(settings, 0, dpi)) return done(null);
  const { lpi } = settings.halftone ?? DEFAULT_HALFTONE;
  return filmTrouble.noRoomForDots(lpi, dpi, Math.floor(dpi / LEAST_CELL));
}

/** The deck's shape and its holes on a grid. */
export function deckAndHoles(raster: FaceRaster, job: Job): { deck: Mask; holes: Mask } {
  const scale = pxPerMm(raster.dpi);
  const top = raster.box.y + raster.box.height;
  const radius = (job.deck.holes.diameter / 2) * scale;
  const rings: Ring[] = holesOnSurface(job.deck, raster.face).map(({ s, t }) => {
    const at = raster.fromSurface(s as number, t as number);
    const [cx, cy] = [(at.x - raster.box.x) * scale, (top - at.y) * scale];
    return Array.from({ length: 32 }, (_, i) => {
      const turn = (i * Math.PI) / 16;
      return [cx + radius * Math.cos(turn), cy + radius * Math.sin(turn)] as const;
    });
  });
  return {
    deck: deckMask(raster, job.deck),
    holes: fillRings(blankMask(raster.width, raster.height), rings),
  };
}

/**
 * A face at screen resolution from decoded pictures (by hash, at any size), in one go and without workers: for the
 * window's own worker. Pieces whose picture is not there yet are left out.
 */
export function facePreview(input: PreviewInput): Outcome<FacePreview> {
  const { job, face, dpi } = input;
  const can = refuseMethod(job, face);
  if (!can.ok) return can;
  const raster = faceRaster(job.deck, face, dpi, { kind: 'surface' });
  const { box, width, height } = raster;
  const { memory, loose } = input;
  const walk = (): FacePreview => {
    const made = inkFace({ job, pictures: input.pictures, raster, traps: input.traps, memory, loose });
    const shape = () => deckAndHoles(raster, job);
    const deck = memory ? memory.keep('deck', JSON.stringify([dpi, face, job.deck]), shape).value : shape();
    return { box, width, height, dpi, ...made, ...deck };
  };
  return done(memory ? memory.round(walk) : walk());
}

interface PreviewInput {
  readonly job: Job;
  readonly face: Face;
  readonly pictures: ReadonlyMap<string, Picture>;
  readonly dpi: number;
  readonly traps: boolean;
  /** See `InkFaceInput`. */
  readonly memory?: InkMemory | undefined;
  readonly loose?: boolean | undefined;
}

/** How an ink looks in a colourway. What was measured is one ink's own: another colour is another ink. */
export function lookIn(ink: Ink, other: string | undefined): InkLook {
  const { opacity, kind, measured } = ink;
  if (other !== undefined && other !== ink.hex) return { hex: other, opacity, kind };
  return { hex: ink.hex, opacity, kind, measured };
}

/**
 * The printed face on one veneer in one colourway. `reduce` averages that many points into one, for a smooth picture.
 * With `misregisterMm` each pull after the first wanders by up to that much, and turns a little, by `seed`.
 */
export function faceProof(input: {
  readonly job: Job;
  readonly face: Face;
  readonly preview: FacePreview;
  readonly veneerId: string;
  readonly colourwayId: string | null;
  readonly reduce?: number;
  readonly misregisterMm?: number;
  readonly seed?: number;
}): Picture {
  const { job, face, preview } = input;
  const reduce = input.reduce ?? 1;
  const veneer = job.veneers.find((v) => v.id === input.veneerId) ?? job.veneers[0];
  const colours = job.colourways.find((c) => c.id === input.colourwayId)?.colours ?? {};
  const { inks } = job.faces[face];
  const baseWanted = inks.some((ink) => onBaseOf(ink, veneer?.id ?? ''));
  const random = randomStream(input.seed ?? 1);
  const wander = (input.misregisterMm ?? 0) * pxPerMm(preview.dpi / reduce);
  const pulls = inks.flatMap((ink, i) => {
    const print = preview.prints[i];
    const own = preview.separations[i];
    // A base that nothing asks for is not pulled; one with art of its own is, and its one film holds its bed too.
    if (!print || (ink.role === 'base' && !baseWanted && own && isBlank(own))) return [];
    let plane: Plane = downsample(print, reduce);
    if (wander > 0) {
      const length = wander * Math.sqrt(random());
      const way = 2 * Math.PI * random();
      // A turn that moves the deck's ends by up to the same distance.
      const turn = ((2 * random() - 1) * wander) / ((plane.width as number) / 2);
      if (i > 0) plane = shiftPlane(plane, length * Math.cos(way), length * Math.sin(way), turn);
    }
    return [{ plane, ...lookIn(ink, colours[ink.id]?.hex) }];
  });
  const deck = downsample(preview.deck, reduce);
  return composePulls({
    width: deck.width,
    height: deck.height,
    veneerHex: veneer?.hex ?? '#dcb98a',
    deck,
    pulls,
    holes: downsample(preview.holes, reduce),
  });
}
