import type { Locator, Page } from 'playwright-core';

/** Presses Tab, or another key that moves the focus, until `target` has it, and demands that the focus can be seen there. */
export async function reach(page: Page, target: Locator, key = 'Tab', most = 150): Promise<void> {
  await target.waitFor();
  for (let i = 0; i < most; i++) {
    if (await target.evaluate((e) => e === document.activeElement)) {
      const seen = await target.evaluate((e) => {
        const style = getComputedStyle(e);
        const { top, bottom, left, right } = e.getBoundingClientRect();
        const inWindow = top < innerHeight && bottom > 0 && left < innerWidth && right > 0;
        const ringed =
          (style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) > 0) ||
          style.boxShadow !== 'none';
        return inWindow && ringed;
      });
      if (!seen)
        throw new Error(
          `The focus cannot be seen on ${await target.evaluate((e) => e.outerHTML.slice(0, 120))}`,
        );
      return;
    }
    await page.keyboard.press(key);
  }
  throw new Error(`${most} presses of ${key} do not reach ${target}`);
}
