import type { Face } from '../deck/index.ts';
import type { Box } from '../units/index.ts';
import type { FaceLayout } from './faceLayout.ts';

/** films.json: the contract between films and everything that reads them. Lengths in mm; FILMS.md describes each field. */
export interface FilmManifest {
  readonly version: 1;
  readonly job: string;
  readonly dpi: number;
  readonly sheet: {
    readonly name: string;
    readonly width: number;
    readonly height: number;
    readonly margin: number;
  };
  readonly films: readonly {
    readonly face: Face;
    readonly ink: string;
    readonly pull: number;
    readonly box: Box;
    readonly inkedCm2: number;
    readonly growth: { readonly x: number; readonly y: number };
    readonly printerScale: { readonly x: number; readonly y: number };
    readonly sheets: readonly {
      /** 1-based, in films.pdf; several films may share one, in the order they are listed here. */
      readonly page: number;
      readonly window: Box;
      readonly filmToPage: readonly number[];
      readonly cuts: readonly {
        readonly with: number;
        readonly path: readonly (readonly [number, number])[];
        readonly crossings: readonly (readonly [number, number, number])[];
      }[];
    }[];
    readonly marks: readonly { readonly kind: string; readonly x: number; readonly y: number }[];
  }[];
}

/** `layouts` in the order their pages have in films.pdf; `growth` by face: the growth the films were corrected for. */
export function filmManifest(
  jobName: string,
  layouts: readonly FaceLayout[],
  growth: (face: Face) => { readonly x: number; readonly y: number },
): FilmManifest {
  const first = layouts[0];
  if (!first) throw new Error('A manifest needs at least one face.');
  const { sheet, margin } = first.printer;
  let before = 0;
  const films = layouts.flatMap((layout) => {
    const firstPage = before + 1;
    before += layout.pages;
    return layout.films.map((film) => {
      return {
        face: layout.face,
        ink: film.art.inkName,
        pull: film.art.pull,
        box: film.box,
        inkedCm2: film.inkedCm2,
        growth: growth(layout.face),
        printerScale: { x: layout.printer.scaleX, y: layout.printer.scaleY },
        sheets: film.sheets.map((s) => ({
          page: firstPage + s.page,
          window: s.window,
          filmToPage: s.filmToPage,
          cuts: s.seams.map((seam) => ({
            with: firstPage + film.sheets[seam.with]!.page,
            path: seam.path,
            crossings: seam.crossings,
          })),
        })),
        marks: film.marks.map(({ kind, x, y }) => ({ kind, x, y })),
      };
    });
  });
  return {
    version: 1,
    job: jobName,
    dpi: first.dpi,
    sheet: { name: sheet.name, width: sheet.width, height: sheet.height, margin },
    films,
  };
}
