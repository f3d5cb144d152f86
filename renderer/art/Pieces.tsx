import { useEffect, useRef } from 'react';
import type { Art } from '../../core/job/index.ts';
import { addWords, pickArt } from '../acts/index.ts';
import { Card, Icon } from '../bench/index.ts';
import {
  type ArtPicture,
  changeArt,
  edit,
  removeArt,
  reordered,
  useStudio,
  withGroups,
} from '../state/index.ts';
import { effectiveDpi, resolutionWord } from './resolution.ts';

function Thumb({ picture }: { picture: ArtPicture | undefined }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const el = canvas.current;
    if (!el || !picture) return;
    const scale = Math.min(96 / picture.width, 64 / picture.height);
    el.width = Math.max(1, picture.width * scale);
    el.height = Math.max(1, picture.height * scale);
    el.getContext('2d')?.drawImage(picture.image, 0, 0, el.width, el.height);
  }, [picture]);
  return <canvas ref={canvas} className="thumb" width={96} height={64} />;
}

/** What is chosen after a press on a piece: it and its group, with Alt it alone; with Shift or the command key it joins or leaves. */
function chosenBy(
  art: readonly Art[],
  selection: readonly string[],
  piece: Art,
  press: {
    readonly shiftKey: boolean;
    readonly ctrlKey: boolean;
    readonly metaKey: boolean;
    readonly altKey: boolean;
  },
): string[] {
  const own = press.altKey ? [piece.id] : withGroups(art, [piece.id]);
  if (!press.shiftKey && !press.ctrlKey && !press.metaKey) return own;
  return selection.includes(piece.id)
    ? selection.filter((id) => !own.includes(id))
    : [...new Set([...selection, ...own])];
}

/** The pieces on this face, topmost first. */
export function Pieces() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const selection = useStudio((s) => s.selection);
  const pictures = useStudio((s) => s.pictures);
  const { art } = job.faces[face];
  const rows = art.map((piece, index) => ({ piece, index })).reverse();
  return (
    <Card
      title={`Art on the ${face}`}
      action={
        <span className="tape-buttons">
          <button
            type="button"
            className="tape-button"
            aria-label="Add words"
            onClick={() => void addWords()}
          >
            <Icon name="plus" /> Words
          </button>
          <button type="button" className="tape-button" aria-label="Add art" onClick={() => void pickArt()}>
            <Icon name="plus" /> Art
          </button>
        </span>
      }
    >
      {art.length === 0 && (
        <div className="empty">
          <p>
            <b>Drop pictures on the deck</b>, paste one, or pick files.
          </p>
          <p className="hint">SVG, PNG, JPEG, WebP, TIFF or AVIF. Drawings (SVG) stay sharp at any size.</p>
          <button type="button" className="button-main" onClick={() => void pickArt()}>
            Choose art
          </button>
        </div>
      )}
      <ul className="pieces">
        {rows.map(({ piece, index }) => {
          const word = resolutionWord(effectiveDpi(piece));
          const chosen = selection.includes(piece.id);
          return (
            <li key={piece.id} className={chosen ? 'piece piece-chosen' : 'piece'}>
              <button
                type="button"
                className="piece-main"
                aria-pressed={chosen}
                onClick={(e) => useStudio.setState({ selection: chosenBy(art, selection, piece, e) })}
              >
                <Thumb picture={pictures.get(piece.hash)} />
                <span className="piece-text">
                  <b>{piece.name}</b>
                  {piece.group !== undefined && <small>in a group</small>}
                  <small className={`tone-${word.tone}`}>{word.text}</small>
                </span>
              </button>
              <span className="row-tools">
                <button
                  type="button"
                  aria-label={`Bring ${piece.name} forward`}
                  disabled={index === art.length - 1}
                  onClick={() => edit('Bring art forward', (j) => reordered(j, face, [piece.id], 'forward'))}
                >
                  <Icon name="up" />
                </button>
                <button
                  type="button"
                  aria-label={`Send ${piece.name} back`}
                  disabled={index === 0}
                  onClick={() => edit('Send art back', (j) => reordered(j, face, [piece.id], 'back'))}
                >
                  <Icon name="down" />
                </button>
                <button
                  type="button"
                  aria-label={piece.hidden ? `Show ${piece.name}` : `Hide ${piece.name}`}
                  aria-pressed={piece.hidden}
                  onClick={() =>
                    edit(piece.hidden ? 'Show art' : 'Hide art', (j) =>
                      changeArt(j, face, piece.id, { hidden: !piece.hidden }),
                    )
                  }
                >
                  <Icon name={piece.hidden ? 'shut' : 'eye'} />
                </button>
                <button
                  type="button"
                  aria-label={`Remove ${piece.name}`}
                  onClick={() => {
                    edit(`Remove ${piece.name}`, (j) => removeArt(j, face, [piece.id]));
                    useStudio.setState({ selection: selection.filter((id) => id !== piece.id) });
                  }}
                >
                  <Icon name="bin" />
                </button>
              </span>
            </li>
          );
        })}
      </ul>
    </Card>
  );
}
