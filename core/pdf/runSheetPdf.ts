import type { PDFDocument } from 'pdf-lib';
import { drawable, inkLabel, shorten } from '../film/index.ts';
import { Paper, SOFT, tintOf } from '../paper/index.ts';
import { cautionBox, SHEET_EDGE } from './cautionBox.ts';
import { type Deflate, newDocument, saveDocument } from './document.ts';
import { addPaperPages, standardFonts } from './paperPages.ts';
import { addPicture } from './pictureImage.ts';
import { planPages } from './planPages.ts';
import { pullPages } from './pullPages.ts';
import type { RunSheet } from './runSheet.ts';

function cover(doc: PDFDocument, sheet: RunSheet, deflate: Deflate): Paper[] {
  const { width, height } = sheet.paper;
  const room = width - 2 * SHEET_EDGE;
  const pages: Paper[] = [];
  let paper = new Paper(width, height);
  pages.push(paper);
  let y = height - SHEET_EDGE - 9;
  const room4 = (need: number) => {
    if (y - need >= SHEET_EDGE) return;
    paper = new Paper(width, height);
    pages.push(paper);
    y = height - SHEET_EDGE - 6;
  };
  const head = (words: string) => {
    room4(30);
    paper.text(SHEET_EDGE, y, words, 14, { bold: true });
    y -= 7;
  };
  paper.text(SHEET_EDGE, y, drawable(sheet.jobName) ? shorten(sheet.jobName, 30) : 'Run sheet', 30, {
    bold: true,
  });
  y -= 8;
  paper.text(
    SHEET_EDGE,
    y,
    ['Run sheet', sheet.shop].filter((s) => s !== '' && drawable(s)).join(' · '),
    12,
    {
      tint: SOFT,
    },
  );
  y -= 15;
  sheet.counts.forEach(([label, value], i) => {
    const x = SHEET_EDGE + (i * room) / sheet.counts.length;
    paper.text(x, y, value, 26, { bold: true });
    paper.text(x, y - 5, label, 10, { tint: SOFT });
  });
  y -= 14;
  if (sheet.proofs.length > 0) {
    const columns = sheet.proofs.length > 3 ? 2 : 1;
    const cell = (room - (columns - 1) * 6) / columns;
    for (let i = 0; i < sheet.proofs.length; i += columns) {
      const row = sheet.proofs.slice(i, i + columns);
      const tall = Math.max(
        ...row.map(({ picture }) => (cell * (picture.height as number)) / (picture.width as number)),
      );
      room4(tall + 8);
      row.forEach(({ name, picture }, k) => {
        const high = (cell * (picture.height as number)) / (picture.width as number);
        const x = SHEET_EDGE + k * (cell + 6);
        paper.stencil(addPicture(doc, picture, deflate), x, y - high, cell, high, [0, 0, 0]);
        paper.text(x, y - high - 3.5, shorten(name, 44), 9.5, { tint: SOFT });
      });
      y -= tall + 9;
    }
    y -= 3;
  }
  head('Pulls in order');
  for (const { film, layout } of sheet.pulls) {
    room4(8);
    const { art } = film;
    paper.rect(SHEET_EDGE, y - 1.3, 7, 5.4, tintOf(art.hex), SOFT, 0.2);
    paper.text(SHEET_EDGE + 10, y, `${art.pull}  ${shorten(inkLabel(art), 34)}`, 13, { bold: true });
    paper.text(
      SHEET_EDGE + 105,
      y,
      `${layout.face} · ${art.meshPerCm} threads/cm · ${film.inkedCm2.toFixed(0)} cm² · ${film.sheets.length} ${film.sheets.length === 1 ? 'sheet' : 'sheets'}`,
      10,
      { tint: SOFT },
    );
    y -= 7.4;
  }
  y -= 3;
  head('Decks');
  for (const lot of sheet.lots) {
    room4(8);
    paper.rect(SHEET_EDGE, y - 1.3, 7, 5.4, tintOf(lot.veneerHex), SOFT, 0.2);
    paper.text(SHEET_EDGE + 10, y, shorten(lot.veneer, 30), 12);
    paper.text(SHEET_EDGE + 75, y, shorten(lot.colourway, 28), 11, { tint: SOFT });
    paper.text(SHEET_EDGE + 130, y, `${lot.good} good, start with ${lot.start}`, 12, { bold: true });
    y -= 7.2;
  }
  y -= 3;
  if (sheet.shopping.length > 0) {
    head('To buy or have at hand');
    for (const [name, amount] of sheet.shopping) {
      room4(7);
      paper.rect(SHEET_EDGE, y - 0.6, 4, 4, null, SOFT, 0.3);
      paper.text(SHEET_EDGE + 8, y, shorten(name, 48), 11);
      paper.text(SHEET_EDGE + 120, y, amount, 11);
      y -= 6.4;
    }
    y -= 3;
  }
  if (sheet.notes !== '') {
    head('Notes');
    y = paper.paragraph(SHEET_EDGE, y, shorten(sheet.notes.replace(/\s+/g, ' '), 900), 10.5, room) - 3;
  }
  room4(12 + sheet.cautions.length * 9);
  cautionBox(paper, y, sheet.cautions);
  return pages;
}

/**
 * The run sheet: a cover with proofs, order, decks and what to buy; the plan over days; a page a pull, large enough to read
 * at the press.
 */
export async function runSheetPdf(
  sheet: RunSheet,
  options: { readonly deflate: Deflate },
): Promise<Uint8Array> {
  const doc = await newDocument(`${sheet.jobName}: run sheet`, 'From films to boxed decks');
  const fonts = standardFonts(doc);
  const pages = [
    ...cover(doc, sheet, options.deflate),
    ...planPages(sheet),
    ...sheet.pulls.flatMap((pull) => pullPages(sheet, pull, options.deflate)),
  ];
  for (const [i, page] of pages.entries()) {
    page.text(page.width - SHEET_EDGE - 20, 7, `${i + 1} of ${pages.length}`, 9, { tint: SOFT });
    page.text(SHEET_EDGE, 7, drawable(sheet.jobName) ? shorten(sheet.jobName, 50) : 'Run sheet', 9, {
      tint: SOFT,
    });
  }
  addPaperPages(
    doc,
    fonts,
    pages.map((page) => page.finish(options.deflate)),
  );
  return saveDocument(doc);
}
