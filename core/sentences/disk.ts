import { badInput, fileTrouble, type Said } from './failure.ts';

/** What the system says when a file can not be read or written, as a sentence and a mend. */
const SAID: Readonly<Record<string, readonly [reason: string, mend: string]>> = {
  ENOENT: ['does not exist', 'Check the name and the folder.'],
  ENOTDIR: ['lies under something that is not a folder', 'Check the path.'],
  EEXIST: ['is there already and is not a folder', 'Move it away, or choose another place.'],
  EISDIR: ['is a folder, not a file', 'Name a file instead.'],
  EACCES: ['may not be opened by this user', 'Change its permissions, or choose another place.'],
  EPERM: ['may not be changed by this user', 'Change its permissions, or choose another place.'],
  EROFS: ['lies on a disk that can only be read', 'Choose a place on another disk.'],
  ENOSPC: ['does not fit: the disk is full', 'Free some space or choose another disk; nothing was changed.'],
  EDQUOT: ['does not fit: this user’s share of the disk is used up', 'Free some space; nothing was changed.'],
  EFBIG: ['is larger than this disk can hold', 'Choose another disk.'],
  ENAMETOOLONG: ['has too long a name', 'Choose a shorter one.'],
  EBUSY: ['is in use by another program', 'Close it there, then try again.'],
  EMFILE: ['can not be opened: too many files are open', 'Close other programs, then try again.'],
  EIO: [
    'could not be reached: the disk does not answer',
    'Check the disk or its cable; nothing was changed.',
  ],
  ENXIO: ['could not be reached: the disk does not answer', 'Check the disk or its cable.'],
  ELOOP: ['is a link that leads to itself', 'Name the file itself.'],
};

export const diskTrouble = {
  /** `code` is the system's own word, such as ENOSPC. */
  system: (path: Said, code: string) => {
    const [reason, mend] = SAID[code] ?? [
      `could not be used: the system says ${code}`,
      'Choose another place.',
    ];
    return fileTrouble(`“${path}” ${reason}.`, mend);
  },
  alreadyThere: (path: Said) =>
    fileTrouble(`“${path}” is there already.`, 'Give another name with --out, or move that one away.'),
  fileNotFolder: (path: Said) =>
    fileTrouble(`“${path}” is a file, not a folder.`, 'Name a folder that is new or empty.'),
  foreignFiles: (folder: Said, files: Said) =>
    fileTrouble(
      `The folder “${folder}” holds other files (${files}), which Kickflat will not touch.`,
      'Name a folder that is new or empty.',
    ),
  folderNotFile: (path: Said) => fileTrouble(`“${path}” is a folder, not a file.`, 'Name a file instead.'),
  notOrdinary: (path: Said) => fileTrouble(`“${path}” is not an ordinary file.`, 'Name a file instead.'),
  tooLarge: (path: Said, megabytes: Said, most: Said) =>
    badInput(
      `“${path}” is ${megabytes} MB; at most ${most} MB are read.`,
      'Save it smaller, or name another file.',
    ),
  noFolder: (path: Said) =>
    fileTrouble(`The folder of “${path}” does not exist.`, 'Make the folder first, or name another.'),
  openElsewhere: (path: Said, pid: Said, host: Said) =>
    fileTrouble(
      `“${path}” is open in another program (process ${pid} on ${host}).`,
      'Close it there first, or save under another name.',
    ),
  beingOpened: (path: Said) =>
    fileTrouble(`“${path}” is being opened by another program.`, 'Try again in a moment.'),
  savedElsewhere: () =>
    fileTrouble(
      'Another window or program has saved this job since it was opened here; its file was left as it is.',
      'Save yours under another name (hold Shift while you save), or open the job again to see theirs.',
    ),
};
