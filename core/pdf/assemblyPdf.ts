import type { FaceLayout } from '../film/index.ts';
import { type AssemblyOptions, assemblyPages, type PaperPage } from '../paper/index.ts';
import { newDocument, saveDocument } from './document.ts';
import { addPaperPages, standardFonts } from './paperPages.ts';

/** assembly.pdf of its pages, see `assemblyPages`. */
export async function bindAssembly(
  pages: readonly (readonly PaperPage[])[],
  jobName: string,
): Promise<Uint8Array> {
  const doc = await newDocument(`${jobName}: assembly`, 'How the sheets of each film go together');
  const fonts = standardFonts(doc);
  for (const together of pages) addPaperPages(doc, fonts, together);
  return saveDocument(doc);
}

/** assembly.pdf of faces laid out before; empty when `abort` says so. */
export async function assemblyPdf(
  layouts: readonly FaceLayout[],
  options: AssemblyOptions,
): Promise<Uint8Array> {
  const pages = assemblyPages(layouts, options);
  return pages ? bindAssembly(pages, options.jobName) : new Uint8Array(0);
}
