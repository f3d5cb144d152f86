import { fileURLToPath } from 'node:url';

/** The project's root folder, wherever the scripts are started from. */
export const ROOT = fileURLToPath(new URL('..', import.meta.url));
