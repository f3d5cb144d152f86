import { type Failure, fileTrouble } from '../../core/units/index.ts';

/** What the system says when a file can not be read or written, as a sentence and a mend. */
const SAID: Readonly<Record<string, readonly [reason: string, mend: string]>> = {
  ENOENT: ['does not exist', 'Check the name and the folder.'],
  ENOTDIR: ['lies under something that is not a folder', 'Check the path.'],
  EISDIR: ['is a folder, not a file', 'Name a file.'],
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

/** A system error as a failure; anything that is no system error is a bug and goes on up. */
export function troubleWith(path: string, error: unknown): Failure {
  const code = (error as NodeJS.ErrnoException | null)?.code;
  if (code === undefined || !/^E[A-Z0-9]+$/.test(code)) throw error;
  const [reason, mend] = SAID[code] ?? [`could not be used (${code})`, 'Choose another place.'];
  return fileTrouble(`“${path}” ${reason}.`, mend);
}
