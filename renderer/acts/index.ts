export { addFiles, pickArt } from './addArt.ts';
export { bringOver } from './bringOver.ts';
export { exportFilms } from './exportFilms.ts';
export { fitArt } from './fitArt.ts';
export { keepShown, SHOWN_DPI } from './keepShown.ts';
export { firstDeck, openDemo, openJob, openRecent, showJob, startJob } from './openJob.ts';
export { keepUnsavedWork, saveJob } from './saveJob.ts';
export { shell } from './shell.ts';
