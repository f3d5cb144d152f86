import { badInput, fileTrouble, type Said } from './failure.ts';

export const studioTrouble = {
  /** `said` is what the program answered, or nothing. */
  refused: (said: string) =>
    fileTrouble(said || 'The studio’s program refused.', 'Start it again with kickflat studio.'),
  bug: (message: Said) =>
    badInput(`Something went wrong inside Kickflat (${message}).`, 'Nothing was written; please report it.'),
  /** `why` is the disk’s own sentence. */
  notKept: (why: Said) =>
    fileTrouble(
      `Unsaved work is not being kept: ${String(why).replace(/\.$/, '')}.`,
      'Save the job now, on another disk if this one is full.',
    ),
  noArtOnFaces: () => badInput('There is no art on the chosen faces yet.', 'Place some art first.'),
  jobForgotten: () => badInput('That job is no longer known here.', 'Open it again from its file.'),
  noFile: () => badInput('This job has no file here yet.', 'Save it as a download first.'),
  doneByPage: (method: Said) => badInput(`“${method}” is done by the page itself.`, 'Reload the page.'),
  noAnswer: () =>
    fileTrouble(
      'The studio’s program does not answer.',
      'Start it again with kickflat studio, and open the address it prints.',
    ),
  cameAsDownload: () => badInput('The files came as a download.', 'Look where your browser keeps downloads.'),
  fontUnread: () =>
    fileTrouble('A font of the program can not be read.', 'Start the studio again, then install it anew.'),
};
