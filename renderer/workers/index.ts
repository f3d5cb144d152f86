export type { ShowRequest, ShowResult } from './drawFace.ts';
export type { PlannedFilms } from './filmPlan.ts';
export type { GlassPicture, GlassRequest, MovedPull, MovedRequest } from './glassWorker.ts';
export { latestWins } from './latest.ts';
export { forgetGlass, glass, tryRegister } from './looking.ts';
export type { SuggestedInks } from './studioWorker.ts';
export { back, filer, forgetArt, front, givePicture } from './studioWorkers.ts';
