import type { Box } from '../../core/units/index.ts';

/** The working views, in working order, tail to nose. */
export const STATIONS = ['deck', 'art', 'inks', 'traps', 'films', 'screens', 'press'] as const;
export type Station = (typeof STATIONS)[number];

export const STATION_TITLES: Readonly<Record<Station, string>> = {
  deck: 'Deck',
  art: 'Art',
  inks: 'Inks',
  traps: 'Traps',
  films: 'Films',
  screens: 'Screens',
  press: 'Press',
};

/** Where the board looks: the surface point in the middle of the window, mm, and CSS pixels a millimetre. */
export interface View {
  readonly s: number;
  readonly t: number;
  readonly scale: number;
}

export const MIN_SCALE = 0.15;
export const MAX_SCALE = 60;

/** Surface mm to CSS pixels of a window of `width × height`. */
export const toScreen = (view: View, width: number, height: number, s: number, t: number) => ({
  x: width / 2 + (s - view.s) * view.scale,
  y: height / 2 - (t - view.t) * view.scale,
});

/** CSS pixels of a window of `width × height` to surface mm. */
export const toSurfacePoint = (view: View, width: number, height: number, x: number, y: number) => ({
  s: view.s + (x - width / 2) / view.scale,
  t: view.t - (y - height / 2) / view.scale,
});

/** The view that shows the whole box with a margin, CSS pixels, left free on each side. */
export function fitView(
  box: Box,
  width: number,
  height: number,
  margins: { readonly side: number; readonly top: number; readonly bottom: number },
): View {
  const { side, top, bottom } = margins;
  const scale = Math.max(
    MIN_SCALE,
    Math.min((width - 2 * side) / box.width, (height - top - bottom) / box.height),
  );
  return {
    s: box.x + box.width / 2,
    t: box.y + box.height / 2 + (top - bottom) / 2 / scale,
    scale: Math.min(MAX_SCALE, Math.max(MIN_SCALE, scale)),
  };
}

/** The view zoomed by `factor` so that the surface point under (x, y) stays there. */
export function zoomedAt(
  view: View,
  width: number,
  height: number,
  x: number,
  y: number,
  factor: number,
): View {
  const scale = Math.min(MAX_SCALE, Math.max(MIN_SCALE, view.scale * factor));
  const held = toSurfacePoint(view, width, height, x, y);
  return { scale, s: held.s - (x - width / 2) / scale, t: held.t + (y - height / 2) / scale };
}
