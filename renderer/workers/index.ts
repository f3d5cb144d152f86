export type { PlannedFilms } from './filmPlan.ts';
export { latestWins } from './latest.ts';
export type { ShowRequest, ShowResult } from './studioWorker.ts';
export { back, forgetArt, front, giveArt, givePicture } from './studioWorkers.ts';
