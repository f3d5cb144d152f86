import type { Page } from 'playwright-core';

/** The colour the board shows at a place in its frame, 0 to 1 across and down, as `#rrggbb`. */
export async function boardColour(page: Page, x: number, y: number): Promise<string> {
  return page.evaluate(
    ([fx, fy]) => {
      const canvas = document.querySelector<HTMLCanvasElement>('.board-frame canvas.lower-canvas')!;
      const at = canvas
        .getContext('2d')!
        .getImageData(Math.round(fx! * canvas.width), Math.round(fy! * canvas.height), 1, 1).data;
      return `#${[...at.slice(0, 3)].map((n) => n.toString(16).padStart(2, '0')).join('')}`;
    },
    [x, y],
  );
}

/** How far two colours lie apart, greatest channel difference, 0 to 255. */
export const apart = (a: string, b: string): number =>
  Math.max(
    ...[1, 3, 5].map((i) =>
      Math.abs(Number.parseInt(a.slice(i, i + 2), 16) - Number.parseInt(b.slice(i, i + 2), 16)),
    ),
  );

/** Opens a station by its name on the rail. */
export async function station(page: Page, name: string): Promise<void> {
  const rail = page.getByRole('navigation', { name: 'Stations' });
  await rail.getByRole('button', { name, exact: true }).click();
  // Its cards come a few a frame: the last lies there once ten frames have brought none.
  await page.evaluate(async () => {
    let [cards, still] = [-1, 0];
    while (still < 10) {
      await new Promise(requestAnimationFrame);
      const now = document.querySelectorAll('.card').length;
      still = now === cards ? still + 1 : 0;
      cards = now;
    }
  });
}

/** Waits until nothing is drawn out of sight. */
export const settled = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => !document.querySelector('.working.on'));
