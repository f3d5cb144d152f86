export type { ShowRequest, ShowResult } from './drawFace.ts';
export type { PlannedFilms } from './filmPlan.ts';
export { latestWins } from './latest.ts';
export { back, forgetArt, front, giveArt, givePicture } from './studioWorkers.ts';
