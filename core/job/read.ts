import { jobTrouble } from '../sentences/index.ts';
import { done, issueText, type Outcome } from '../units/index.ts';
import { JOB_VERSION, type Job, JobSchema } from './schema.ts';

type Raw = Readonly<Record<string, unknown>>;

/** upgrades[n] turns version n + 1 into n + 2. Released ones never change. Version 1 is the first, so none yet. */
export const upgrades: readonly ((doc: Raw) => Raw)[] = [];

/** A program mostly opens one job: making a reader of the schema, which zod else does, takes four times as long as reading without. */
const ONCE = { jitless: true };

/**
 * A document from outside to a `Job`: upgraded from older versions, refused politely when newer, checked key by key.
 * Keys this version does not know are kept.
 */
export function readJob(raw: unknown): Outcome<Job> {
  if (raw === null || typeof raw !== 'object' || Array.isArray(raw)) return jobTrouble.notObject();
  let doc = raw as Raw;
  const version = doc['version'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) return jobTrouble.noVersion();
  if (version > JOB_VERSION) return jobTrouble.newer(version, JOB_VERSION);
  for (let v = version; v < JOB_VERSION; v++) {
    const upgrade = upgrades[v - 1];
    if (!upgrade) throw new Error(`No upgrade from version ${v}.`);
    doc = upgrade(doc);
  }
  const parsed = JobSchema.safeParse(doc, ONCE);
  if (!parsed.success) return jobTrouble.damagedAt(issueText(parsed.error.issues[0], 'the document'));
  return consistent(parsed.data);
}

/** What a schema can't say: ids are unique and name what exists. */
function consistent(job: Job): Outcome<Job> {
  const twice = (ids: readonly string[]) => ids.find((id, i) => ids.indexOf(id) !== i);
  for (const [name, face] of [['bottom', job.faces.bottom] as const, ['top', job.faces.top] as const]) {
    const again = twice(face.inks.map((ink) => ink.id)) ?? twice(face.art.map((piece) => piece.id));
    if (again) return jobTrouble.faceHasTwice(name, again);
  }
  const again = twice(job.veneers.map((v) => v.id)) ?? twice(job.colourways.map((c) => c.id));
  if (again) return jobTrouble.hasTwice(again);
  return done(job);
}
