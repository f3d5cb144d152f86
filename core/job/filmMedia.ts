import type { FILM_MEDIA } from './schema.ts';

export interface FilmMedium {
  readonly id: (typeof FILM_MEDIA)[number];
  readonly label: string;
  /** Share by which it is usually shorter when cooled and dry. Common practice, no source: a sheet of one's own tells. */
  readonly usualShrink: number;
  /** Rolls of it are sold, and desktop printers of its kind take them; else sheets alone. */
  readonly rolls: boolean;
  readonly hint: string;
}

/**
 * What films are printed on. Figures are common practice without a source, there to begin with and to be replaced by what
 * the calibration sheet measures on the film itself; the maker's sheet says what a film and a printer take.
 */
export const FILM_MEDIUMS: readonly FilmMedium[] = [
  {
    id: 'laser-film',
    label: 'Laser film',
    usualShrink: 0.001,
    rolls: false,
    hint: 'Stands the fuser’s heat but shrinks a little in it: measure it printed and cooled. Sheets only, up to what the printer’s tray takes.',
  },
  {
    id: 'inkjet-film',
    label: 'Inkjet film',
    usualShrink: 0,
    rolls: true,
    hint: 'Keeps its size, but swells in damp air: let it dry, and store it flat. Sheets and rolls.',
  },
  {
    id: 'tracing-paper',
    label: 'Tracing paper',
    usualShrink: 0.003,
    rolls: true,
    hint: 'Moves most with heat and damp, mostly across its grain: print all films of a face in one go. Sheets and rolls.',
  },
];
