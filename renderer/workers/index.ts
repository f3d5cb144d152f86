export type { ShowRequest, ShowResult } from './drawFace.ts';
export type { PlannedFilms } from './filmPlan.ts';
export { latestWins } from './latest.ts';
export { back, filer, forgetArt, front, givePicture } from './studioWorkers.ts';
