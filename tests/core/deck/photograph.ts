import {
  type Deck,
  type Face,
  makeSurface,
  outlineRing,
  type Pixels,
  truckHoles,
} from '../../../core/deck/index.ts';
import { blankMask, downsample, fillRings } from '../../../core/raster/index.ts';
import type { Ring } from '../../../core/units/index.ts';

export type View = (x: number, y: number, z: number) => readonly [number, number];

/**
 * A pinhole camera: `eye` mm in the deck's space as the face is seen (z towards the eye), looking at `at`, its picture's
 * right turned by `roll`. `focal` px; the picture's middle is at `middle` px; picture y runs down.
 */
export function pinhole(
  eye: readonly [number, number, number],
  at: readonly [number, number, number],
  roll: number,
  focal: number,
  middle: readonly [number, number],
): View {
  const unit = (v: readonly number[]) => v.map((n) => n / Math.hypot(...v));
  const cross = (a: readonly number[], b: readonly number[]) => [
    a[1]! * b[2]! - a[2]! * b[1]!,
    a[2]! * b[0]! - a[0]! * b[2]!,
    a[0]! * b[1]! - a[1]! * b[0]!,
  ];
  const dot = (a: readonly number[], b: readonly number[]) => a.reduce((s, n, i) => s + n * b[i]!, 0);
  const forward = unit(at.map((n, i) => n - eye[i]!));
  const down = unit(cross(forward, [Math.cos(roll), Math.sin(roll), 0]));
  const right = cross(down, forward);
  return (x, y, z) => {
    const to = [x - eye[0], y - eye[1], z - eye[2]];
    const depth = dot(to, forward);
    return [middle[0] + (focal * dot(to, right)) / depth, middle[1] + (focal * dot(to, down)) / depth];
  };
}

export interface Scene {
  readonly width: number;
  readonly height: number;
  /** Encoded grey of wood and ground, and of the holes. */
  readonly wood: readonly [number, number, number];
  readonly ground: readonly [number, number, number];
  readonly hole: readonly [number, number, number];
  /** Share of light lost from one side of the picture to the other, and noise, encoded values either way. */
  readonly shade: number;
  readonly noise: number;
}

const linear = (v: number) => (v <= 10.31 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
const encode = (l: number) => 255 * (l <= 0.0031308 ? 12.92 * l : 1.055 * l ** (1 / 2.4) - 0.055);

/** Finer points each way that coverage is counted on. */
const FINER = 4;

/** The deck as the camera sees it: flat in the plane of its holes, or bent as its kicks and concave are. */
export function photograph(deck: Deck, face: Face, view: View, bent: boolean, scene: Scene): Pixels {
  const { width, height } = scene;
  const surface = makeSurface(deck, face);
  const rise = (x: number, y: number) =>
    bent ? surface.toSpace(surface.toSurface({ x, y })).z * (face === 'top' ? 1 : -1) : 0;
  const seen = (x: number, y: number) => {
    const [px, py] = view(x, y, rise(x, y));
    return [px * FINER, py * FINER] as const;
  };
  const edge: [number, number][] = [];
  const ring = outlineRing(deck, face, 0.005);
  ring.forEach(([x, y], i) => {
    const [p, q] = ring[(i + 1) % ring.length]!;
    // A straight edge of the plan is bent on the wood.
    const pieces = Math.ceil(Math.hypot(p - x, q - y) / 2);
    for (let k = 0; k < pieces; k++) edge.push([x + ((p - x) * k) / pieces, y + ((q - y) * k) / pieces]);
  });
  const rings: Ring[] = [edge.map(([x, y]) => seen(x, y))];
  const holes: Ring[] = truckHoles(deck, face).map(({ x, y }) =>
    Array.from({ length: 48 }, (_, i) => {
      const turn = (i * Math.PI) / 24;
      const r = deck.holes.diameter / 2;
      return seen(x + r * Math.cos(turn), y + r * Math.sin(turn));
    }),
  );
  const shareOf = (of: readonly Ring[]) =>
    downsample(fillRings(blankMask(width * FINER, height * FINER), of), FINER).data;
  const wood = shareOf(rings);
  const hole = shareOf(holes);
  const data = new Uint8Array(width * height * 4);
  let state = 12345;
  const random = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
  for (let i = 0; i < width * height; i++) {
    const lamp = 1 - (scene.shade * (i % width)) / width;
    const noise = (random() + random() - 1) * scene.noise;
    for (let c = 0; c < 3; c++) {
      const [w, h] = [wood[i]! / 255, hole[i]! / 255];
      const light =
        linear(scene.ground[c]!) * (1 - w) + linear(scene.wood[c]!) * (w - h) + linear(scene.hole[c]!) * h;
      data[i * 4 + c] = Math.max(0, Math.min(255, Math.round(encode(light * lamp) + noise)));
    }
    data[i * 4 + 3] = 255;
  }
  return { width, height, data };
}
