import { useEffect, useId, useRef, useState } from 'react';
import type { Art, TextData } from '../../core/job/index.ts';
import { textAsLaid } from '../../core/placeText.ts';
import { MOST_LETTERS, TYPEFACES } from '../../core/text/index.ts';
import type { Failure } from '../../core/units/index.ts';
import { changeWords, inkOfColour, takeFont } from '../acts/index.ts';
import { Card, Choice, LengthField, NumberBox, Pick } from '../bench/index.ts';
import { edit, sealEdits, tell, useStudio } from '../state/index.ts';
import { InkColour } from './InkColour.tsx';

const FILE = 'file';

/** A piece's words: what they say and how they are set. The outlines follow. */
export function WordsCard({ piece }: { piece: Art }) {
  const id = useId();
  const face = useStudio((s) => s.face);
  const inks = useStudio((s) => s.job!.faces[s.face].inks);
  const laid = textAsLaid(piece)!;
  const [words, setWords] = useState(laid.words);
  const [trouble, setTrouble] = useState<Failure | null>(null);
  const typing = useRef(false);
  const files = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (!typing.current) setWords(laid.words);
  }, [laid.words]);
  const put = (label: string, change: Partial<TextData>) =>
    changeWords({ id: piece.id, change, label, trouble: setTrouble });
  const chooseFile = async (file: File | undefined) => {
    if (!file) return;
    const taken = await takeFont(file);
    if ('ok' in taken) tell('trouble', taken.reason, taken.mend);
    else put('Change font', taken);
  };
  const own = laid.font.startsWith('own-');
  const planned = inks.some((ink) => (ink.matches ?? ink.hex) === laid.hex);
  return (
    <Card title="Words">
      <div className="field">
        <label htmlFor={id}>Words</label>
        <textarea
          id={id}
          rows={2}
          maxLength={MOST_LETTERS}
          value={words}
          aria-invalid={trouble !== null}
          onChange={(e) => {
            typing.current = true;
            setWords(e.target.value);
            put('Change words', { words: e.target.value });
          }}
          onBlur={() => {
            typing.current = false;
            sealEdits();
          }}
        />
      </div>
      {trouble && (
        <p className="hint tone-poor" role="alert">
          {trouble.reason} {trouble.mend}
        </p>
      )}
      <Pick
        label="Font"
        value={laid.font}
        options={[
          ...TYPEFACES.map((t) => ({ value: t.id, label: `${t.name}: ${t.says}` })),
          ...(own ? [{ value: laid.font, label: laid.fontName || 'own font' }] : []),
          { value: FILE, label: 'A font file of yours…' },
        ]}
        onChange={(font) => {
          if (font === FILE) files.current?.click();
          else
            put('Change font', {
              font,
              fontName: TYPEFACES.find((t) => t.id === font)?.name ?? laid.fontName,
            });
        }}
      />
      <input
        ref={files}
        type="file"
        hidden
        aria-label="Font file"
        accept=".ttf,.otf,.ttc,.woff,.woff2"
        onChange={(e) => {
          void chooseFile(e.target.files?.[0]);
          e.target.value = '';
        }}
      />
      <div className="fields">
        <LengthField
          label="Height of a capital"
          large
          value={laid.cap}
          min={0.5}
          max={1000}
          step={0.5}
          onChange={(cap) => put('Size words', { cap })}
        />
        <LengthField
          label="Between letters"
          hint="Added after each letter; below 0 they close up"
          value={laid.tracking}
          min={-200}
          max={200}
          step={0.1}
          onChange={(tracking) => put('Space letters', { tracking })}
        />
        <NumberBox
          label="Between lines"
          value={laid.leading}
          min={0.5}
          max={10}
          step={0.05}
          unit="× height"
          onChange={(leading) => put('Space lines', { leading })}
        />
        <LengthField
          label="Arch, radius"
          hint="0 is a straight line; a negative radius hangs like a smile"
          value={laid.arc}
          step={5}
          onChange={(arc) => put('Bend words', { arc })}
        />
      </div>
      <Choice
        label="Lines stand"
        value={laid.align}
        options={[
          { value: 'left', label: 'to the left' },
          { value: 'centre', label: 'centred' },
          { value: 'right', label: 'to the right' },
        ]}
        onChange={(align) => put('Align words', { align })}
      />
      <InkColour
        label="Colour of the words"
        inks={inks}
        hex={laid.hex}
        onChange={(hex) => put('Colour words', { hex })}
      />
      {!planned && (
        <button type="button" onClick={() => edit('Add an ink', (j) => inkOfColour(j, face, laid.hex))}>
          Make {laid.hex} an ink
        </button>
      )}
    </Card>
  );
}
