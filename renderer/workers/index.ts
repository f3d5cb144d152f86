export type { ShowRequest, ShowResult } from './drawFace.ts';
export type { PlannedFilms } from './filmPlan.ts';
export type { GlassPicture, GlassRequest, MovedPull, MovedRequest } from './glassWorker.ts';
export { latestWins } from './latest.ts';
export { forgetGlass, glass, suggestedInks, tryRegister } from './looking.ts';
export { forgetFilms, moveSheets, planFilms } from './planFilms.ts';
export { back, filer, forgetArt, front, givePicture } from './studioWorkers.ts';
export type { SuggestedInks } from './suggestWorker.ts';
export { setInWorker } from './words.ts';
