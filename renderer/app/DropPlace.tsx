import { type DragEvent, type ReactNode, useEffect, useState } from 'react';
import type { PickedFile } from '../../core/ports/index.ts';
import { addFiles } from '../acts/index.ts';

const read = async (files: Iterable<File>): Promise<PickedFile[]> => {
  const out: PickedFile[] = [];
  for (const file of files)
    out.push({ name: file.name || 'pasted.png', bytes: new Uint8Array(await file.arrayBuffer()) });
  return out;
};

/** Takes dropped files anywhere on the window, and pasted pictures. */
export function DropPlace({ children }: { children: ReactNode }) {
  const [over, setOver] = useState(false);
  useEffect(() => {
    const paste = (e: ClipboardEvent) => {
      const files = [...(e.clipboardData?.files ?? [])];
      const text = e.clipboardData?.getData('text/plain') ?? '';
      // Drawing programs put their drawings there as the text of an SVG.
      if (
        files.length === 0 &&
        /^\s*(<\?xml[^>]*>\s*)?(<!--.*?-->\s*|<!DOCTYPE[^>]*>\s*)*<svg[\s>]/s.test(text)
      )
        files.push(new File([text], 'pasted.svg', { type: 'image/svg+xml' }));
      if (files.length === 0) return;
      e.preventDefault();
      void read(files).then((picked) => addFiles(picked));
    };
    window.addEventListener('paste', paste);
    return () => window.removeEventListener('paste', paste);
  }, []);
  const holdsFiles = (e: DragEvent) => [...e.dataTransfer.types].includes('Files');
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping files is an extra; every way in has a button too
    <div
      className={over ? 'window over' : 'window'}
      onDragOver={(e) => {
        if (!holdsFiles(e)) return;
        e.preventDefault();
        e.dataTransfer.dropEffect = 'copy';
        setOver(true);
      }}
      onDragLeave={(e) => {
        if (e.currentTarget === e.target || e.relatedTarget === null) setOver(false);
      }}
      onDrop={(e) => {
        if (!holdsFiles(e)) return;
        e.preventDefault();
        setOver(false);
        void read(e.dataTransfer.files).then((picked) => addFiles(picked));
      }}
    >
      {children}
      {over && (
        <div className="drop-note" aria-hidden="true">
          Let go: pictures are placed on the deck, a job is opened, a palette goes on the ink shelf
        </div>
      )}
    </div>
  );
}
