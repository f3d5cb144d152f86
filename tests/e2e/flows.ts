import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { settled, station } from './board.ts';

/** From the welcome to the demonstration job, its proof on the deck. */
export async function demoOnDeck(page: Page): Promise<void> {
  await page.getByRole('button', { name: /Look at the demo/ }).click();
  await page.locator('.pull').first().waitFor();
  await settled(page);
  expect(await page.locator('.pull b').allTextContents()).toEqual([
    'Base white',
    'Sun yellow',
    'Coral',
    'Sea green',
    'Night blue',
  ]);
  // What each pull covers is real: the key of this graphic covers several hundred cm² of a deck of about 1600.
  // A busy machine may not have begun to print when nothing seems to be going on.
  await page.locator('.pull').last().locator('small', { hasText: 'cm²' }).waitFor();
  const key = await page.locator('.pull').last().locator('small').textContent();
  const cm2 = Number(/([\d.]+) cm²/.exec(key ?? '')?.[1]);
  expect(cm2).toBeGreaterThan(200);
  expect(cm2).toBeLessThan(1600);
}

/** An ink renamed, undone and made again. */
export async function changeInk(page: Page): Promise<void> {
  await page.locator('.pull').nth(2).click();
  const name = page.getByLabel('Name', { exact: true }).first();
  await name.fill('Harbour coral');
  await name.blur();
  await page.getByRole('button', { name: 'Undo: Rename ink' }).click();
  expect(await page.locator('.pull b').nth(2).textContent()).toBe('Coral');
  await page.getByRole('button', { name: 'Redo: Rename ink' }).click();
  expect(await page.locator('.pull b').nth(2).textContent()).toBe('Harbour coral');
}

/** Each station in working order, with cards on its bench. */
export async function everyStation(page: Page): Promise<void> {
  for (const name of ['Deck', 'Art', 'Inks', 'Traps', 'Films', 'Screens', 'Press']) {
    await station(page, name);
    await settled(page);
    expect(await page.locator('.card').count()).toBeGreaterThan(0);
  }
}
