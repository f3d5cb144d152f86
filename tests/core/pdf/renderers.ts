import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A rendered page, one bit a pixel: 1 is black. */
export interface Bitmap {
  readonly width: number;
  readonly height: number;
  black(x: number, y: number): boolean;
}

function present(command: string, args: readonly string[]): boolean {
  try {
    execFileSync(command, args, { stdio: 'ignore' });
    return true;
  } catch (error) {
    return (error as { code?: string }).code !== 'ENOENT';
  }
}

/** Independent renderers and checkers found on this machine; tests that need a missing one are skipped and say so. */
export const TOOLS = {
  poppler: present('pdftoppm', ['-v']),
  mupdf: present('mutool', ['-v']),
  ghostscript: present('gs', ['--version']),
  qpdf: present('qpdf', ['--version']),
} as const;
export type Renderer = 'poppler' | 'mupdf' | 'ghostscript';

function readPbm(file: string): Bitmap {
  const bytes = readFileSync(file);
  const head = /^P4\s+(?:#[^\n]*\n)*(\d+)\s+(\d+)\s/.exec(bytes.subarray(0, 400).toString('latin1'));
  if (!head) throw new Error('The renderer wrote no bitmap.');
  const [width, height] = [Number(head[1]), Number(head[2])];
  const data = bytes.subarray(head[0].length);
  const stride = (width + 7) >> 3;
  return { width, height, black: (x, y) => ((data[y * stride + (x >> 3)]! >> (7 - (x & 7))) & 1) === 1 };
}

/** Runs `use` with a function that renders single pages of `pdf` at a resolution. */
export function withPdf<T>(
  pdf: Uint8Array,
  use: (render: (tool: Renderer, page: number, dpi: number) => Bitmap, path: string) => T,
): T {
  const dir = mkdtempSync(join(tmpdir(), 'kickflat-pdf-'));
  const path = join(dir, 'in.pdf');
  try {
    writeFileSync(path, pdf);
    return use((tool, page, dpi) => {
      const n = String(page);
      const out = join(dir, 'page.pbm');
      const quiet = { stdio: 'ignore' } as const;
      if (tool === 'poppler') {
        execFileSync(
          'pdftoppm',
          ['-r', String(dpi), '-mono', '-f', n, '-l', n, '-singlefile', path, join(dir, 'page')],
          quiet,
        );
      } else if (tool === 'mupdf') {
        execFileSync(
          'mutool',
          ['draw', '-q', '-A', '0', '-r', String(dpi), '-F', 'pbm', '-o', out, path, n],
          quiet,
        );
      } else {
        execFileSync(
          'gs',
          [
            '-q',
            '-dNOPAUSE',
            '-dBATCH',
            '-dSAFER',
            '-sDEVICE=pbmraw',
            `-r${dpi}`,
            `-dFirstPage=${n}`,
            `-dLastPage=${n}`,
            `-sOutputFile=${out}`,
            path,
          ],
          quiet,
        );
      }
      return readPbm(out);
    }, path);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}
