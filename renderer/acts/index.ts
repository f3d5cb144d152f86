export { addFiles, pickArt } from './addArt.ts';
export { bringOver } from './bringOver.ts';
export { exportFilms } from './exportFilms.ts';
export { fitArt } from './fitArt.ts';
export { keepPlans } from './keepPlans.ts';
export { keepProofs } from './keepProofs.ts';
export { firstDeck, openDemo, openJob, openRecent, showJob, startJob } from './openJob.ts';
export { keepUnsavedWork, saveJob } from './saveJob.ts';
export { shell } from './shell.ts';
