import { existsSync, readFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal, run } from './step.mjs';

/** What the tests use beside the packages of package.json: Debian package, and the file whose presence shows it. */
const SYSTEM = [
  { name: 'chromium', program: 'chromium', why: 'drives the studio in the end-to-end tests' },
  { name: 'poppler-utils', program: 'pdftoppm', why: 'an independent renderer for the films' },
  { name: 'qpdf', program: 'qpdf', why: 'checks the structure of PDF files' },
  { name: 'mupdf-tools', program: 'mutool', why: 'a second independent renderer' },
  { name: 'ghostscript', program: 'gs', why: 'a third renderer, and reads separations' },
  {
    name: 'fonts-dejavu',
    file: '/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf',
    why: 'a known font for screenshots',
  },
];

const onPath = (program) =>
  (process.env.PATH ?? '').split(delimiter).some((dir) => dir !== '' && existsSync(join(dir, program)));

/** The Debian packages that are not here. */
export const missingSystem = () =>
  SYSTEM.filter((p) => (p.program ? !onPath(p.program) : !existsSync(p.file)));

/**
 * Why the packages must be installed, or null. Versions are compared, not dates: a fresh checkout may have any dates.
 * npm keeps what it installed in node_modules/.package-lock.json.
 */
export function staleReason(root = ROOT) {
  const hidden = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(hidden)) return 'the packages are not installed yet';
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const have = JSON.parse(readFileSync(hidden, 'utf8')).packages;
  for (const [path, entry] of Object.entries(wanted)) {
    if (path === '' || entry.link) continue;
    const got = have[path];
    // Optional packages are for other platforms when they are absent.
    if (!got && !entry.optional && !entry.devOptional && !entry.peer) return `${path} is missing`;
    if (got && got.version !== entry.version) return `${path} is at ${got.version}, not ${entry.version}`;
  }
  return null;
}

async function installPackages() {
  const reason = staleReason();
  if (!reason) return;
  process.stderr.write(`Installing packages: ${reason}. This takes about half a minute.\n`);
  const { status } = await run('npm', ['ci', '--no-audit', '--no-fund']).catch(() => ({ status: 127 }));
  if (status !== 0)
    throw new Refusal(
      'npm ci did not succeed. Check the connection and the message above, then start this again.',
    );
}

async function installSystem() {
  const missing = missingSystem();
  if (missing.length === 0) return;
  const list = missing.map((p) => `${p.name} (${p.why})`).join(', ');
  const names = missing.map((p) => p.name);
  if (!onPath('apt-get') || process.getuid?.() !== 0) {
    process.stderr.write(
      `Not installed: ${list}. Tests that need them are skipped; to run all, install them with your system's packages.\n`,
    );
    return;
  }
  process.stderr.write(`Installing from Debian: ${list}.\n`);
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  await run('apt-get', ['update', '-q'], { quiet: true, env });
  const got = await run('apt-get', ['install', '-q', '-y', '--no-install-recommends', ...names], {
    quiet: true,
    env,
  });
  if (got.status !== 0)
    process.stderr.write(
      `apt-get could not install them; tests that need them are skipped.\n${got.output.slice(-600)}\n`,
    );
}

/** Brings a fresh checkout into working order; does nothing, and says nothing, when all is there. */
export async function install({ system = false } = {}) {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19))
    throw new Refusal(`Node ${process.versions.node} is too old. Install Node 20.19 or later.`);
  await installPackages();
  if (system) await installSystem();
}

if (isEntry(import.meta)) await main(() => install({ system: true }));
