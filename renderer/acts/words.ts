import { type Art, hashOf, type TextData } from '../../core/job/index.ts';
import { placeText, resetText, textAsLaid, usualText } from '../../core/placeText.ts';
import { textTrouble } from '../../core/sentences/index.ts';
import { MOST_FONT_BYTES, TYPEFACES } from '../../core/text/index.ts';
import type { Failure } from '../../core/units/index.ts';
import { changeArt, edit, onFace, tell, useStudio } from '../state/index.ts';
import { latestWins, setInWorker } from '../workers/index.ts';
import { inkOfColour } from './inkOfColour.ts';
import { keepArt } from './keepArt.ts';
import { failed } from './working.ts';

const OWN = 'own-';
const pathOf = (font: string) => `fonts/${font.slice(OWN.length)}`;

function fontsOf(text: TextData): { name: string; from: string | Uint8Array }[] | Failure {
  const face = TYPEFACES.find((t) => t.id === text.font);
  if (face)
    return face.files.map((file) => ({
      name: face.name,
      from: new URL(`fonts/${file}`, document.baseURI).href,
    }));
  const bytes = useStudio.getState().extra.get(pathOf(text.font));
  return bytes ? [{ name: text.fontName, from: bytes }] : textTrouble.fontNotInJob(text.fontName);
}

async function drawn(text: TextData) {
  const fonts = fontsOf(text);
  return 'ok' in fonts ? fonts : setInWorker({ fonts, setting: text });
}

/** Lays new words on the shown face, ready to be changed; the first piece of a face brings its ink along. */
export async function addWords(): Promise<void> {
  const { job, face } = useStudio.getState();
  if (!job) return;
  const text = usualText(job, face, job.name.slice(0, 60) || 'Words');
  const set = await drawn(text);
  if (!set.ok) return tell('trouble', set.reason, set.mend);
  const placed = placeText(job, face, text, set.value);
  if ((await keepArt(placed.bytes, placed.piece.name)) === null) return;
  edit('Add words', (now) => {
    const laid = onFace(now, face, (f) => ({ ...f, art: [...f.art, placed.piece] }));
    return laid.faces[face].inks.length === 0 ? inkOfColour(laid, face, text.hex) : laid;
  });
  useStudio.setState({ selection: [placed.piece.id] });
}

/** What was asked of which piece. */
interface Asked {
  readonly id: string;
  readonly change: Partial<TextData>;
  readonly label: string;
  readonly trouble: (said: Failure | null) => void;
}

/** Words as they will be once what was asked is drawn, by piece: the next change starts from them. */
const drafts = new Map<string, TextData>();

/** Draws what was asked and makes an edit of it. */
async function setOne({ id, text, label, trouble }: Asked & { readonly text: TextData }): Promise<void> {
  const set = await drawn(text);
  trouble(set.ok ? null : set);
  if (!set.ok) return;
  const { face } = useStudio.getState();
  const find = (art: readonly Art[]) => art.find((a) => a.id === id);
  const piece = find(useStudio.getState().job?.faces[face].art ?? []);
  if (!piece) return;
  const known = { ...text, fontName: text.fontName || set.value.family.slice(0, 200) };
  if ((await keepArt(resetText(piece, known, set.value).bytes, piece.name)) === null) return;
  edit(
    label,
    (j) => {
      // It may have been moved while its letters were drawn.
      const now = find(j.faces[face].art);
      return now ? changeArt(j, face, id, resetText(now, known, set.value).piece) : j;
    },
    `words ${label} ${id}`,
  );
}

const setAgain = latestWins(
  async (asked: Asked & { readonly text: TextData }) => {
    try {
      await setOne(asked);
    } finally {
      // Only now does the piece say what was asked; until then the next change starts from the draft.
      if (drafts.get(asked.id) === asked.text) drafts.delete(asked.id);
    }
  },
  () => undefined,
  failed('words'),
);

/** Sets a piece's words anew with one thing changed; `trouble` hears why they can not be, or null. */
export function changeWords(asked: Asked): void {
  const { job, face } = useStudio.getState();
  const piece = job?.faces[face].art.find((a) => a.id === asked.id);
  const before = drafts.get(asked.id) ?? (piece ? textAsLaid(piece) : null);
  if (!before) return;
  const text = { ...before, ...asked.change };
  drafts.set(asked.id, text);
  setAgain({ ...asked, text });
}

/** Takes a font file into the job and gives the name words know it by. */
export async function takeFont(file: File): Promise<{ font: string; fontName: string } | Failure> {
  if (file.size > MOST_FONT_BYTES) return textTrouble.fontFileTooLarge(file.name);
  const bytes = new Uint8Array(await file.arrayBuffer());
  const font = `${OWN}${hashOf(bytes)}`;
  const extra = new Map(useStudio.getState().extra);
  extra.set(pathOf(font), bytes);
  useStudio.setState({ extra });
  return { font, fontName: '' };
}
