import type { MaskTools } from './faceMasks.ts';
import type { FaceLayout } from './film/index.ts';
import type { Job } from './job/index.ts';
import type { PaperPage } from './paper/index.ts';
import type { AssemblyInput } from './tasks.ts';

/** Pages that belong together, and all of them. */
type Pages = readonly (readonly PaperPage[])[];

/**
 * Layouts as the pages of films `from` to before `to` need them: what sheets of transparency draw is most of them and would be copied for nothing,
 * and of the other films it is told which sheets they take.
 */
function forGuide(layouts: readonly FaceLayout[], from: number, to: number): FaceLayout[] {
  let count = 0;
  return layouts.map((layout) => ({
    ...layout,
    films: layout.films.map((film) => {
      const mine = count >= from && count < to;
      count++;
      const sheets = film.sheets.map((sheet) => ({
        ...sheet,
        marks: [],
        labels: [],
        seams: mine ? sheet.seams : [],
      }));
      return { ...film, marks: mine ? film.marks : [], sheets };
    }),
  }));
}

/** The pages of assembly.pdf, written by the threads, each a like number of films; null where it was stopped. */
export async function guidePages(
  layouts: readonly FaceLayout[],
  pictures: AssemblyInput['pictures'],
  { job, workers, abort }: Pick<MaskTools, 'workers' | 'abort'> & { readonly job: Job },
): Promise<Pages | null> {
  const count = layouts.reduce((sum, { films }) => sum + films.length, 0);
  const each = Math.max(1, Math.ceil(count / workers.count));
  const parts: Promise<Pages | null>[] = [];
  for (let from = 0; from < count; from += each) {
    const films = { from, to: from + each };
    const of = forGuide(layouts, films.from, films.to);
    const input = { layouts: of, jobName: job.name, pictures, films };
    parts.push(workers.run<AssemblyInput, Pages | null>('assemblyPages', input, abort));
  }
  const pages: Pages[number][] = [];
  for (const part of await Promise.all(parts)) {
    if (!part) return null;
    pages.push(...part);
  }
  return pages;
}
