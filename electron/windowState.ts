import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserWindow, Rectangle } from 'electron';
import * as z from 'zod';

const whole = z.number().int().min(-100_000).max(100_000);
const size = z.number().int().min(200).max(20_000);
const WindowSchema = z.object({
  x: whole,
  y: whole,
  width: size,
  height: size,
  maximized: z.boolean(),
});
/** Where a window stood when it was last closed, screen points. */
export type WindowState = z.infer<typeof WindowSchema>;

/** Points of a window's upper edge that must show: enough to take hold of it. */
const HOLD = 80;
/** Points by which a further window stands aside, so that the one below still shows. */
const ASIDE = 28;

const fileIn = (dir: string) => join(dir, 'window.json');

/** The state kept in `dir`, or null: a file that can not be read counts as none. */
export function keptWindow(dir: string): WindowState | null {
  try {
    return WindowSchema.parse(JSON.parse(readFileSync(fileIn(dir), 'utf8')));
  } catch {
    return null;
  }
}

/** The state moved aside for a window beside `others`, or null where no screen shows it any more. */
export function placeOn(
  state: WindowState | null,
  screens: readonly Rectangle[],
  others: number,
): WindowState | null {
  if (!state) return null;
  const x = state.x + others * ASIDE;
  const y = state.y + others * ASIDE;
  const shows = screens.some(
    (s) => x + state.width - HOLD > s.x && x + HOLD < s.x + s.width && y >= s.y && y + HOLD < s.y + s.height,
  );
  return shows ? { ...state, x, y } : null;
}

/** Keeps the window's place when it closes. All at once and at once: the program may be about to end. */
export function keepWindow(window: BrowserWindow, dir: string): void {
  window.on('close', () => {
    const file = fileIn(dir);
    const temporary = `${file}.${process.pid}`;
    try {
      const state: WindowState = { ...window.getNormalBounds(), maximized: window.isMaximized() };
      mkdirSync(dir, { recursive: true });
      writeFileSync(temporary, `${JSON.stringify(state)}\n`);
      renameSync(temporary, file);
    } catch {
      // Nothing of the user's is lost with it.
      rmSync(temporary, { force: true });
    }
  });
}
