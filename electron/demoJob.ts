import { join } from 'node:path';
import * as z from 'zod';
import { deckTemplate, FACES } from '../core/deck/index.ts';
import { type Job, type JobFile, newJob, placeArt, readJob } from '../core/job/index.ts';
import type { FileStore, ImageCodec } from '../core/ports/index.ts';
import { done, type Outcome } from '../core/units/index.ts';
import { hashOf } from './host/index.ts';

const FaceScenario = z.looseObject({
  art: z.object({
    file: z.string(),
    wrap: z.enum(['surface', 'plan']),
    fit: z.enum(['cover', 'contain', 'actual']),
  }),
});
/** build/demo/scenario.json: the invented run that comes with the program. What a job holds is checked by `readJob`. */
const Scenario = z.looseObject({
  deckTemplate: z.string(),
  faces: z.object({ bottom: FaceScenario, top: FaceScenario }),
});

const MOST_BYTES = 16 * 1024 * 1024;

/** The demonstration job from the scenario and the drawings in `dir`. */
export async function demoJob(dir: string, files: FileStore, codec: ImageCodec): Promise<Outcome<JobFile>> {
  const text = await files.read(join(dir, 'scenario.json'), MOST_BYTES);
  if (!text.ok) return text;
  const {
    deckTemplate: template,
    faces,
    ...facts
  } = Scenario.parse(JSON.parse(new TextDecoder().decode(text.value)));
  const deck = deckTemplate(template);
  if (!deck) throw new Error(`The demonstration names the deck ${template}, which is not there.`);
  const blank = newJob({ name: 'Demonstration', deck });
  const settings = (face: 'bottom' | 'top') => ({ ...blank.faces[face], ...faces[face], art: [] });
  const read = readJob({ ...blank, ...facts, faces: { bottom: settings('bottom'), top: settings('top') } });
  if (!read.ok) throw new Error(`The demonstration is not a job: ${read.reason}`);
  let job: Job = read.value;
  const art = new Map<string, Uint8Array>();
  for (const face of FACES) {
    const { file, fit, wrap } = faces[face].art;
    const bytes = await files.read(join(dir, file), MOST_BYTES);
    if (!bytes.ok) return bytes;
    const probe = await codec.probe(bytes.value, file);
    if (!probe.ok) return probe;
    const hash = hashOf(bytes.value);
    const placed = placeArt(
      job,
      face,
      { ...probe.value, name: file, hash, ground: null },
      { fit, wrap, artDpi: null },
    );
    if (!placed.ok) return placed;
    job = placed.value.job;
    art.set(hash, bytes.value);
  }
  return done({ job, art, extra: new Map() });
}
