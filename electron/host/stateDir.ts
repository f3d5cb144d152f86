import { homedir } from 'node:os';
import { join } from 'node:path';

/** Where this user's recent jobs and unsaved work are kept, by each system's custom (XDG on Linux). */
export function stateDir(): string {
  const chosen = process.env['KICKFLAT_STATE'];
  if (chosen) return chosen;
  if (process.platform === 'win32')
    return join(process.env['APPDATA'] ?? join(homedir(), 'AppData', 'Roaming'), 'Kickflat');
  if (process.platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Kickflat');
  return join(process.env['XDG_STATE_HOME'] || join(homedir(), '.local', 'state'), 'kickflat');
}
