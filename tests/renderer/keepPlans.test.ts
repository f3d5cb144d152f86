import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { deckTemplate } from '../../core/deck/index.ts';
import { inkFrom, type Job, newJob } from '../../core/job/index.ts';
import { done } from '../../core/units/index.ts';
import { latestWins } from '../../renderer/workers/latest.ts';

/** What the workers were asked for, in its order; an answer is given when the test lets it. */
const asked: string[] = [];
const answers: (() => void)[] = [];
const answer = (name: string, made: unknown) => {
  asked.push(name);
  return new Promise((resolve) => answers.push(() => resolve(made)));
};
const films = (face: string) => done({ face, films: [], pages: 0, notes: [], trouble: null });
vi.mock('../../renderer/workers/index.ts', () => ({
  latestWins,
  back: { check: () => answer('check', []), misfit: () => answer('misfit', {}) },
  planFilms: (job: Job, face: string) => answer(`plan ${job.printer.sheet} ${job.name}`, films(face)),
  moveSheets: (job: Job, face: 'bottom') =>
    answer(`move ${JSON.stringify(job.faces[face].boundaries ?? {})}`, films(face)),
}));
const { keepPlans, putBoundaries } = await import('../../renderer/acts/index.ts');
const { edit, undo, useStudio } = await import('../../renderer/state/index.ts');

const blank = useStudio.getState();
const ink = inkFrom({ name: 'Coral', hex: '#e8613c' }, []);
const start = newJob({ name: 'Try', deck: deckTemplate('popsicle-8.25')! });
const job: Job = {
  ...start,
  faces: { ...start.faces, bottom: { ...start.faces.bottom, inks: [ink] } },
  printer: { ...start.printer, sheet: 'a4' },
};
const rename = (name: string) => edit('Name the job', (j) => ({ ...j, name }));
const onSheet = (sheet: string) =>
  edit('Change sheet', (j) => ({ ...j, printer: { ...j.printer, sheet: sheet as 'a4' } }));
const answered = async () => {
  while (answers.length > 0) {
    answers.shift()!();
    await vi.advanceTimersByTimeAsync(0);
  }
};
/** Longer than any quiet that is waited for. */
const rest = async () => {
  await vi.advanceTimersByTimeAsync(2000);
  await answered();
};
const since = () => asked.splice(0);

describe('plans kept in step with the document', () => {
  let stop: () => void;
  beforeEach(async () => {
    vi.useFakeTimers();
    useStudio.setState({ ...blank, job, station: 'films' }, true);
    stop = keepPlans();
    await rest();
    expect(since()).toEqual(['plan a4 Try', 'check']);
  });
  afterEach(() => {
    stop();
    answers.length = 0;
    asked.length = 0;
    vi.useRealTimers();
  });

  test('a moved boundary is laid out at once and once, and asks for no check', async () => {
    putBoundaries('bottom', ink.id, [100]);
    expect(since()).toEqual([`move {"${ink.id}":[100]}`]);
    await rest();
    expect(since()).toEqual([]);
  });

  test('of many moves the first and the newest are laid out; taken back, the sheets go back at once', async () => {
    for (const mm of [101, 102, 103]) putBoundaries('bottom', ink.id, [mm]);
    await rest();
    expect(since()).toEqual([`move {"${ink.id}":[101]}`, `move {"${ink.id}":[103]}`]);
    undo();
    expect(since()).toEqual(['move {}']);
    await rest();
    expect(since()).toEqual([]);
    expect(useStudio.getState().working).toEqual([]);
  });

  test('any other edit is planned whole after a rest, once, and checked', async () => {
    onSheet('letter');
    await vi.advanceTimersByTimeAsync(100);
    rename('Other');
    expect(since()).toEqual([]);
    await rest();
    expect(since()).toEqual(['plan letter Other', 'check']);
  });

  test('a boundary moved before another edit is planned does not leave that edit out, nor its check', async () => {
    onSheet('letter');
    putBoundaries('bottom', ink.id, [100]);
    expect(since()).toEqual([]);
    await rest();
    expect(since()).toEqual(['plan letter Try', 'check']);
  });

  test('a boundary moved while another edit is being planned takes no sheets from before that edit', async () => {
    onSheet('letter');
    await vi.advanceTimersByTimeAsync(300);
    onSheet('a3');
    await vi.advanceTimersByTimeAsync(300);
    // A3 waits for letter to be done; the boundary takes its place, and must be planned whole.
    putBoundaries('bottom', ink.id, [100]);
    await answered();
    expect(since()).toEqual(['plan letter Try', 'plan a3 Try']);
    await rest();
    expect(since()).toEqual(['check']);
    expect(useStudio.getState().working).toEqual([]);
  });

  test('new pictures are planned whole, also when a boundary is moved before they are', async () => {
    useStudio.setState({ pictures: new Map() });
    putBoundaries('bottom', ink.id, [100]);
    expect(since()).toEqual([]);
    await rest();
    expect(since()).toEqual(['plan a4 Try', 'check']);
  });

  test('the other face is planned whole, and what is shown again is not planned again', async () => {
    useStudio.setState({ face: 'top' });
    await rest();
    expect(since()).toEqual(['plan a4 Try']);
    useStudio.setState({ station: 'press' });
    useStudio.setState({ station: 'films' });
    await rest();
    expect(since()).toEqual([]);
  });

  test('films wait for art that is being decoded, and are planned anew when it is', async () => {
    useStudio.setState({ working: ['art'] });
    rename('Other');
    await rest();
    expect(since()).toEqual(['check']);
    useStudio.setState({ working: [] });
    await rest();
    expect(since()).toEqual(['plan a4 Other']);
  });
});
