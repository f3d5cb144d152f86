import { marked } from 'marked';
import type { Station } from '../state/index.ts';

const texts = import.meta.glob<string>('./pages/*.md', { eager: true, query: '?raw', import: 'default' });
const pictures = import.meta.glob<string>('./pictures/*.png', {
  eager: true,
  query: '?url',
  import: 'default',
});

/** Pictures of sheets rather than of the studio: upright, and smaller. */
const PAPERS = /\/(film-sheet|assembly|proof-grid|run-sheet)\.png$/;

export interface GuidePage {
  readonly title: string;
  /** The page's own words as HTML; they come with the program, never from a job. */
  readonly html: string;
}

/** A page that Markdown on its own can show too: its pictures lie beside it. */
function page(text: string): GuidePage {
  const title = /^# (.+)$/m.exec(text)?.[1] ?? '';
  const html = marked.parse(text.replace(/^# .+\n/, ''), { async: false });
  return {
    title,
    html: html.replace(
      /src="\.\.(\/pictures\/[^"]+)"/g,
      (_, name: string) => `${PAPERS.test(name) ? 'class="paper" ' : ''}src="${pictures[`.${name}`] ?? ''}"`,
    ),
  };
}

/** The guide in the order of the work. */
export const GUIDE: readonly GuidePage[] = Object.keys(texts)
  .sort()
  .map((name) => page(texts[name] as string));

/** The page that speaks of a station. */
export const GUIDE_AT: Readonly<Record<Station, number>> = {
  deck: 1,
  art: 2,
  inks: 2,
  traps: 3,
  films: 4,
  screens: 5,
  press: 6,
};
