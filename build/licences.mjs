import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal } from './step.mjs';

/** Where the list is kept; a test compares it with what is installed. */
export const LIST = join(ROOT, 'build', 'licences.md');

/** Licences that may be shipped with the program. LGPL only as a library of its own, as libvips comes. */
const ALLOWED = [
  /^MIT(-0)?$/,
  /^ISC$/,
  /^BSD-[23]-Clause$/,
  /^0BSD$/,
  /^Apache-2\.0$/,
  /^BSL-1\.0$/,
  /^Zlib$/,
  /^Unlicense$/,
  /^CC0-1\.0$/,
  /^Python-2\.0$/,
  /^OFL-1\.1$/,
  /^BlueOak-1\.0\.0$/,
];
const LIBRARY = /^(Apache-2\.0 AND )?LGPL-3\.0-or-later( AND MIT)?$/;

/** Whether a licence expression is allowed; of alternatives one is enough. */
export function allowed(licence, name) {
  const bare = licence.replace(/^\(|\)$/g, '');
  if (/^@img\//.test(name) && LIBRARY.test(bare)) return true;
  return bare
    .split(' OR ')
    .some((way) => way.split(' AND ').every((one) => ALLOWED.some((a) => a.test(one))));
}

/** The package that `name` means inside the package at `from`, by Node's way of looking upwards. */
function placeOf(packages, from, name) {
  for (let at = from; ; at = at.slice(0, Math.max(0, at.lastIndexOf('/node_modules/')))) {
    const path = `${at === '' ? '' : `${at}/`}node_modules/${name}`;
    if (packages[path]) return path;
    if (at === '') return null;
  }
}

/**
 * What the program needs when it runs, from the lock file: the dependencies and theirs. Optional parts that a machine may
 * lack are listed with the licence the lock states.
 */
export function runtimePackages(lock) {
  const { packages } = lock;
  const found = new Map();
  const queue = [['', packages[''].dependencies ?? {}]];
  while (queue.length > 0) {
    const [from, wanted] = queue.pop();
    for (const name of Object.keys(wanted)) {
      const path = placeOf(packages, from, name);
      if (path === null || found.has(path)) continue;
      const entry = packages[path];
      found.set(path, { name, version: entry.version, licence: entry.license ?? '' });
      queue.push([path, { ...entry.dependencies, ...entry.optionalDependencies }]);
    }
  }
  return [...found]
    .map(([path, facts]) => ({ path, ...facts }))
    .sort((a, b) => (`${a.name} ${a.path}` < `${b.name} ${b.path}` ? -1 : 1));
}

/** Packages that run a script of their own while they are installed, and are allowed to. */
export const installScripts = (lock) =>
  Object.entries(lock.packages)
    .filter(([, entry]) => entry.hasInstallScript)
    .map(([path]) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length))
    .sort();

const readLock = () => JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8'));

/** The short list, as Markdown: the same on every machine, since it comes from the lock file alone. */
export function licenceList(lock = readLock()) {
  const packages = runtimePackages(lock);
  const seen = new Set();
  const rows = packages
    .map(({ name, version, licence }) => `| ${name} | ${version} | ${licence || 'none stated'} |`)
    .filter((row) => !seen.has(row) && seen.add(row));
  return [
    '# Licences of what runs with Kickflat',
    '',
    'Written by `npm run licences -- --write` from the lock file. `npm run licences` prints the texts themselves.',
    'libvips (LGPL-3.0-or-later) comes as a library of its own inside @img/sharp-libvips, so that it can be replaced.',
    'core/paper/helvetica.generated.ts holds widths and kerning picked out of two of the Adobe Core 14 AFM files. Copyright (c) 1985,',
    '1987, 1989, 1990, 1997 Adobe Systems Incorporated. All Rights Reserved. Those files may be used, copied, and distributed for any',
    'purpose and without charge, with or without modification, provided that all copyright notices are retained.',
    '',
    '| package | version | licence |',
    '|---|---|---|',
    ...rows,
    '',
  ].join('\n');
}

/** The licence files of an installed package, or nothing where this machine does not have it. */
function textsOf(path) {
  const dir = join(ROOT, path);
  if (!existsSync(dir)) return [];
  return readdirSync(dir)
    .filter(
      (file) => /^(licen[cs]e|copying|notice)/i.test(file) && /(^[^.]+|\.(md|txt|markdown))$/i.test(file),
    )
    .map((file) => readFileSync(join(dir, file), 'utf8').trim());
}

export function licences(args) {
  const lock = readLock();
  const wrong = runtimePackages(lock).filter(({ licence, name }) => !allowed(licence, name));
  if (wrong.length > 0)
    throw new Refusal(
      `These may not be shipped: ${wrong.map(({ name, licence }) => `${name} (${licence || 'no licence'})`).join(', ')}.`,
    );
  if (args.includes('--write')) {
    writeFileSync(LIST, licenceList(lock));
    return;
  }
  process.stdout.write(licenceList(lock));
  for (const { path, name, version } of runtimePackages(lock))
    for (const text of textsOf(path)) process.stdout.write(`\n---- ${name} ${version}\n\n${text}\n`);
}

if (isEntry(import.meta)) await main(async () => licences(process.argv.slice(2)));
