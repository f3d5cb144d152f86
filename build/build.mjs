import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal } from './step.mjs';

const DIST = join(ROOT, 'dist');

/** Native parts stay outside the bundles; electron is there only inside Electron. */
const EXTERNAL = ['@img/sharp-*', '@napi-rs/canvas', 'electron'];
/**
 * Packages around such parts are asked for by `require`, also where a source imports them. An ES module that imports one written for CommonJS
 * makes Node look through it for what it gives out, by a lexer that is compiled first: 0.1 s for the command and each process that draws.
 * sharp's sixty small files are bundled, 0.05 s sooner read than found one by one. Where its ready-made native part does not fit, the package
 * is read as it is: one built by hand lies beside it.
 */
const nativeByRequire = {
  name: 'native by require',
  setup(build) {
    const virtual = (name, contents) => {
      const filter = new RegExp(`^${name}$`);
      build.onResolve({ filter }, ({ kind, path }) =>
        kind === 'require-call' ? undefined : { path, namespace: 'native' },
      );
      build.onLoad({ filter, namespace: 'native' }, () => ({ contents, resolveDir: ROOT }));
    };
    virtual('@napi-rs/canvas', "module.exports = require('@napi-rs/canvas');");
    virtual(
      'sharp',
      "try { module.exports = require('sharp'); } catch { module.exports = require('sharp as it is'); }",
    );
    build.onResolve({ filter: /^sharp as it is$/ }, () => ({ path: 'sharp', external: true }));
    // esbuild would have what was built by hand here and now.
    build.onLoad({ filter: /sharp[\\/]dist[\\/]sharp\.cjs$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8').replaceAll('require(`../src/', 'globalThis.require?.(`../src/'),
    }));
  },
};
/** Bundled packages written for CommonJS may call `require`, which an .mjs file lacks. */
const REQUIRE =
  "import { createRequire as kickflatRequire } from 'node:module'; const require = kickflatRequire(import.meta.url);";

/** And one written for ES modules may ask where it lies, which a .cjs file is not told. */
const URL_OF_COMMON = "const kickflatUrl = require('node:url').pathToFileURL(__filename).href;";

const node = (entry, out) => ({
  entry,
  out,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  banner: REQUIRE,
});
const common = (entry, out, target) => ({ entry, out, platform: 'node', format: 'cjs', target });
const electron = (entry, out) => common(entry, out, 'node22');

/** Every bundle: source and product, relative to the root and to dist/. */
export const BUNDLES = [
  // `minify`: Node reads it a twentieth of a second sooner.
  { ...node('electron/bin.ts', 'cli.mjs'), lazy: 'cliParts', minify: true },
  { ...common('electron/host/worker.ts', 'host/worker.cjs', 'node20'), parts: 'workerParts' },
  {
    ...common('electron/host/trialChild.ts', 'host/trial.cjs', 'node20'),
    parts: 'trialParts',
    define: { 'import.meta.url': 'kickflatUrl' },
    banner: URL_OF_COMMON,
    minify: true,
  },
  node('electron/demo.ts', 'demo.mjs'),
  electron('electron/main.ts', 'electron/main.cjs'),
  electron('electron/preload.ts', 'electron/preload.cjs'),
  {
    entry: 'electron/webShell.ts',
    out: 'webShell.js',
    platform: 'browser',
    format: 'iife',
    target: 'es2022',
  },
];

/** Writes whole: programs that start meanwhile see the old file or the new one. */
function writeWhole(path, bytes) {
  mkdirSync(dirname(path), { recursive: true });
  const temp = `${path}.${process.pid}.tmp`;
  writeFileSync(temp, bytes);
  renameSync(temp, path);
}

const stampOf = (out) => join(DIST, 'stamps', `${out.replaceAll('/', '_')}.json`);
const sum = (path) => createHash('sha256').update(readFileSync(path)).digest('hex').slice(0, 16);

/** Bundles share most of their sources: each is looked at once a run. */
const dates = new Map();
function dateOf(path) {
  let date = dates.get(path);
  if (date === undefined) {
    date = statSync(path).mtimeMs;
    dates.set(path, date);
  }
  return date;
}

/**
 * Whether the product was made from just these sources: every file the bundle read has the date it had then, or at
 * least the same bytes.
 */
function fresh(out) {
  try {
    if (!existsSync(join(DIST, out))) return false;
    const { inputs } = JSON.parse(readFileSync(stampOf(out), 'utf8'));
    return inputs.every(([file, mtimeMs, hash]) => {
      const path = join(ROOT, file);
      return dateOf(path) === mtimeMs || sum(path) === hash;
    });
  } catch {
    return false;
  }
}

function stamp(out, files) {
  const inputs = [...files, 'build/build.mjs'].map((file) => {
    const path = join(ROOT, file);
    return [file, statSync(path).mtimeMs, sum(path)];
  });
  writeWhole(stampOf(out), JSON.stringify({ inputs }));
}

/** Parts of an earlier build that the present one does not name. */
function dropOthers(dir, paths) {
  const now = new Set(paths.map((path) => basename(path)));
  if (existsSync(dir)) for (const name of readdirSync(dir)) if (!now.has(name)) rmSync(join(dir, name));
}

/**
 * What is imported only when needed becomes a file of its own in `dir`, beside the bundle, and is required from there. esbuild parts only ES
 * modules itself, and a thread that loads those starts a tenth of a second later than one that does not. `found` is told the sources.
 */
const partsBeside = (dir, found) => ({
  name: 'parts',
  setup(build) {
    build.onResolve({ filter: /^\./ }, ({ kind, path, resolveDir }) => {
      if (kind !== 'dynamic-import') return undefined;
      const source = relative(ROOT, join(resolveDir, path));
      const name = basename(source, '.ts');
      const part = `./${dir}/${name === 'index' ? basename(dirname(source)) : name}.cjs`;
      found.set(part, source);
      return { path: part, external: true };
    });
  },
});

async function bundle(of, esbuild) {
  const { entry, out, platform, format, target, banner, define, lazy, minify, parts } = of;
  const found = new Map();
  const made = await esbuild
    .build({
      absWorkingDir: ROOT,
      ...(lazy
        ? {
            // What is imported only when needed stays out of the file that every thread or process must read first.
            entryPoints: [{ in: entry, out: out.replace(/\.mjs$/, '') }],
            outdir: DIST,
            outExtension: { '.js': '.mjs' },
            splitting: true,
            chunkNames: `${dirname(out)}/${lazy}/[name]-[hash]`,
          }
        : { entryPoints: [entry], outfile: join(DIST, out) }),
      bundle: true,
      platform,
      format,
      target,
      external: EXTERNAL,
      banner: banner ? { js: banner } : {},
      define: define ?? {},
      minify: minify ?? false,
      sourcemap: false,
      legalComments: 'none',
      logLevel: 'silent',
      metafile: true,
      write: false,
      loader: { '.svg': 'text' },
      // Packages that come as ES modules too: those are read sooner than what was made of them for CommonJS.
      mainFields: ['module', 'main'],
      plugins: [nativeByRequire, ...(parts ? [partsBeside(parts, found)] : [])],
      ...(parts ? { supported: { 'dynamic-import': false } } : {}),
    })
    .catch((error) => {
      const first = error.errors?.[0];
      const where = first?.location ? `${first.location.file}:${first.location.line}: ` : '';
      throw new Refusal(`${out} could not be built. ${where}${first?.text ?? error.message}`);
    });
  for (const file of made.outputFiles) writeWhole(file.path, file.contents);
  const written = made.outputFiles.map(({ path }) => path);
  if (lazy) dropOthers(join(DIST, dirname(out), lazy), written);
  if (parts) dropOthers(join(DIST, dirname(out), parts), [...found.keys()]);
  const read = new Set(Object.keys(made.metafile.inputs));
  for (const [part, source] of found) {
    const inputs = await bundle(
      { ...of, entry: source, out: join(dirname(out), part), parts: null, minify: false },
      esbuild,
    );
    for (const file of inputs) read.add(file);
  }
  const own = [...read].filter((file) => !/^(node_modules\/|native:)/.test(file));
  stamp(out, [...own, 'package-lock.json']);
  return own;
}

/** Every source file of the page: it is quick to look at them all, and vite does not say which ones it read. */
function pageSources() {
  const files = [];
  const walk = (dir) => {
    for (const entry of readdirSync(dir, { withFileTypes: true })) {
      const path = join(dir, entry.name);
      if (entry.isDirectory()) walk(path);
      else files.push(relative(ROOT, path).replaceAll('\\', '/'));
    }
  };
  walk(join(ROOT, 'core'));
  walk(join(ROOT, 'renderer'));
  return [...files, 'build/vite.config.ts', 'package-lock.json'].sort();
}

/** The list itself is part of the stamp, so that an added file counts as a change. */
function freshPage() {
  try {
    const { inputs } = JSON.parse(readFileSync(stampOf('renderer'), 'utf8'));
    const now = pageSources();
    const then = inputs.map(([file]) => file).filter((file) => file !== 'build/build.mjs');
    return now.length === then.length && now.every((file, i) => file === then[i]) && fresh('renderer');
  } catch {
    return false;
  }
}

async function page() {
  const sources = pageSources();
  const { build: vite } = await import('vite');
  const temp = join(DIST, `renderer.${process.pid}.tmp`);
  await vite({
    configFile: join(ROOT, 'build/vite.config.ts'),
    build: { outDir: temp, emptyOutDir: true },
    logLevel: 'error',
  }).catch((error) => {
    rmSync(temp, { recursive: true, force: true });
    throw new Refusal(`The studio's page could not be built. ${error.message}`);
  });
  const target = join(DIST, 'renderer');
  rmSync(target, { recursive: true, force: true });
  renameSync(temp, target);
  stamp('renderer', sources);
}

/** The demonstration's drawings and scenario, which the program carries with it. */
function demoFiles() {
  const from = join(ROOT, 'build', 'demo');
  for (const name of readdirSync(from).filter((file) => /\.(svg|json)$/.test(file))) {
    const bytes = readFileSync(join(from, name));
    const to = join(DIST, 'demo', name);
    if (!existsSync(to) || !readFileSync(to).equals(bytes)) writeWhole(to, bytes);
  }
}

/** Files of the typefaces that come with the program; core/text/typefaces.ts names them, and a test holds the two together. */
const FONTS = join(ROOT, 'node_modules', '@fontsource');
export function fontFiles() {
  const found = [];
  for (const family of existsSync(FONTS) ? readdirSync(FONTS) : [])
    for (const name of readdirSync(join(FONTS, family, 'files')))
      if (/-latin(-ext)?-400-normal\.woff2$/.test(name)) found.push(join(FONTS, family, 'files', name));
  return found;
}

/** Lays them beside the command line and, for the page to fetch, beside it too. */
function layFonts(dir) {
  for (const from of fontFiles()) {
    const bytes = readFileSync(from);
    const to = join(dir, 'fonts', basename(from));
    if (!existsSync(to) || statSync(to).size !== bytes.length) writeWhole(to, bytes);
  }
}

/**
 * Builds what is out of date. `only: 'command'` leaves out the page and Electron: the command line starts sooner.
 * Resolves with the names of what was built.
 */
export async function build({ only = 'all' } = {}) {
  dates.clear();
  const wanted = only === 'command' ? BUNDLES.slice(0, 4) : BUNDLES;
  const stale = wanted.filter(({ out }) => !fresh(out));
  const built = [];
  demoFiles();
  layFonts(DIST);
  if (stale.length > 0) {
    const esbuild = await import('esbuild');
    for (const each of stale) {
      await bundle(each, esbuild);
      built.push(each.out);
    }
  }
  if (only === 'all' && !freshPage()) {
    await page();
    built.push('renderer');
  }
  if (only === 'all') layFonts(join(DIST, 'renderer'));
  return built;
}

if (isEntry(import.meta))
  await main(async () => {
    const built = await build();
    process.stdout.write(built.length > 0 ? `Built ${built.join(', ')}.\n` : 'Everything is up to date.\n');
  });
