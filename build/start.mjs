import { kickflat } from './kickflat.mjs';
import { isEntry } from './step.mjs';

/** Opens the studio from a checkout, set up and built first where that is needed. */
if (isEntry(import.meta)) await kickflat(['studio', ...process.argv.slice(2)]);
