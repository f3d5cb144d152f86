import { deckTemplate } from '../../core/deck/index.ts';
import { canonicalJson, type Ink, inkFrom, type Job, newJob } from '../../core/job/index.ts';
import {
  addInk,
  changeFace,
  changeInk,
  changePress,
  changePrinter,
  changeTraps,
  edit,
  emptyHistory,
  moveInk,
  redo,
  removeInk,
  sealEdits,
  undo,
  useStudio,
} from '../../renderer/state/index.ts';
import { type Chance, chance } from './random.ts';

/** One of the changes a person makes, with whatever values chance gives. */
function anyEdit(
  random: Chance,
  n: number,
): { label: string; change: (job: Job) => Job; squash: string | null } {
  const face = random.pick(['bottom', 'top'] as const);
  const inkId = (job: Job) =>
    job.faces[face].inks[random.int(Math.max(1, job.faces[face].inks.length))]?.id ?? '';
  const squash = random.int(3) === 0 ? random.pick(['drag', 'type']) : null;
  const changes: readonly (readonly [string, (job: Job) => Job])[] = [
    [
      'add ink',
      (job) =>
        addInk(job, face, inkFrom({ name: `Ink ${n}`, hex: '#e8613c' }, job.faces[face].inks as Ink[])),
    ],
    ['remove ink', (job) => (job.faces[face].inks.length > 1 ? removeInk(job, face, inkId(job)) : job)],
    ['move ink', (job) => moveInk(job, face, 0, random.int(Math.max(1, job.faces[face].inks.length)))],
    ['opacity', (job) => changeInk(job, face, inkId(job), { opacity: random.share() })],
    ['traps', (job) => changeTraps(job, face, { width: random.share() })],
    ['smallest', (job) => changeFace(job, face, { smallest: random.share() })],
    ['dpi', (job) => changePrinter(job, { dpi: 300 + random.int(900) })],
    ['frame', (job) => changePress(job, { frameWidth: 300 + random.int(200) })],
    ['name', (job) => ({ ...job, name: `Run ${n}` })],
  ];
  const [label, change] = random.pick(changes);
  return { label, change, squash };
}

export interface Edits {
  readonly edits: number;
  readonly undos: number;
  readonly redos: number;
  /** What did not come back as it was. */
  readonly troubles: readonly string[];
}

/**
 * `count` edits, undos and redos in the window's own state, each compared with a plain list of the documents as text; at
 * the end everything is undone and made again.
 */
export function edits(count: number, seed: number): Edits {
  const deck = deckTemplate('popsicle-8.25');
  if (!deck) throw new Error('The deck is not there.');
  const random = chance(seed);
  const start = newJob({ name: 'Edited', deck });
  useStudio.setState({ job: start, history: emptyHistory });
  const text = () => canonicalJson(useStudio.getState().job);
  // The plain account: every document so far, where we are in it, and the steps that still can be taken back.
  let documents: string[] = [text()];
  let at = 0;
  // Steps too old to be kept: the document before them can not be had again.
  let forgotten = 0;
  const tally = { edits: 0, undos: 0, redos: 0 };
  const troubles: string[] = [];
  const compare = (what: string) => {
    if (text() !== documents[at])
      troubles.push(`${what} ${tally.edits + tally.undos + tally.redos}: another document`);
  };
  for (let n = 0; n < count; n++) {
    const way = random.int(10);
    if (way < 6) {
      const { label, change, squash } = anyEdit(random, n);
      const before = useStudio.getState();
      edit(label, change, squash);
      const { history, job } = useStudio.getState();
      if (job === before.job) continue;
      tally.edits++;
      // Squashed into the last step, that step's document is another now; a new step comes after it.
      const squashed = history.past.at(-1)?.before === before.history.past.at(-1)?.before;
      if (!squashed && history.past.length === before.history.past.length) forgotten++;
      documents = squashed ? [...documents.slice(0, at), text()] : [...documents.slice(0, at + 1), text()];
      at = documents.length - 1;
      if (random.int(3) === 0) sealEdits();
    } else if (way < 9) {
      const can = useStudio.getState().history.past.length > 0;
      undo();
      if (can) at--;
      tally.undos++;
      compare('undo');
    } else {
      const can = useStudio.getState().history.future.length > 0;
      redo();
      if (can) at++;
      tally.redos++;
      compare('redo');
    }
  }
  let steps = 0;
  while (useStudio.getState().history.past.length > 0) {
    undo();
    at--;
    steps++;
    compare('undo to the start');
  }
  if (at !== forgotten) troubles.push(`the start, step ${forgotten}, was not reached but step ${at}`);
  for (; steps > 0; steps--) {
    redo();
    at++;
    compare('redo to the end');
  }
  while (useStudio.getState().history.future.length > 0) {
    redo();
    at++;
    compare('redo what was undone');
  }
  if (documents[at] !== text()) troubles.push('the end is another');
  return { ...tally, troubles };
}
