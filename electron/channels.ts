/** Names of the messages between window and program; one list for both sides. */
export const CALL = 'kickflat:call';
export const START_FILMS = 'kickflat:films';
export const START_MEASURE = 'kickflat:measure';
export const FILMS_PROGRESS = 'kickflat:films-progress';
export const DRAG_OUT = 'kickflat:drag-out';
export const STOP_FILMS = 'kickflat:films-stop';

/** The page's own scheme in Electron: no file of the disk has an address in it. */
export const SCHEME = 'kickflat';
export const PAGE = `${SCHEME}://studio/`;
