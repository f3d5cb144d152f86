import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { ROOT } from './root.mjs';
import { isEntry } from './step.mjs';

/**
 * Who may import whom (DEVELOPERS.md draws it). A folder of core/ may import itself and those listed; core's own files
 * (`core/makeFilms.ts` and its neighbours) see every folder, and no folder sees them.
 */
const GROUND = ['sentences', 'units', 'raster', 'colour', 'deck'];
export const CORE = {
  sentences: [],
  units: ['sentences'],
  raster: ['sentences', 'units'],
  colour: ['sentences', 'units'],
  deck: ['sentences', 'units'],
  ports: ['units', 'raster', 'deck', 'press', 'shop'],
  separate: GROUND,
  text: ['sentences', 'units'],
  trap: GROUND,
  proof: GROUND,
  press: GROUND,
  film: ['sentences', 'units', 'raster', 'deck'],
  paper: ['sentences', 'units', 'raster', 'film'],
  pdf: ['sentences', 'units', 'raster', 'film', 'paper', 'press'],
  job: ['sentences', 'units', 'colour', 'deck'],
  shop: ['sentences', 'units', 'deck', 'job', 'colour'],
  check: [...GROUND, 'job', 'separate', 'trap', 'proof', 'press', 'film'],
};

const TOP = { core: ['core'], electron: ['electron', 'core'], renderer: ['renderer', 'core'] };

const WHY = {
  core: 'core is pure: the shell and the page use it, never the other way round',
  electron: 'the shell and the page meet only in core/ports',
  renderer: 'the shell and the page meet only in core/ports',
};

/** Packages that bring in a machine, a window or a native part. */
const IMPURE =
  /^(node:|electron|react|react-dom|sharp|fabric|three|comlink|zustand|vite|vitest|playwright-core|@fontsource)/;
const SOURCE = /\.(ts|tsx)$/;

/** Comments become blanks, strings stay: what looks like an import inside a comment is none. */
function withoutComments(text) {
  return text.replace(
    /\/\*[\s\S]*?\*\/|(^|[^:'"`\\])\/\/[^\n]*|'(?:\\.|[^'\\\n])*'|"(?:\\.|[^"\\\n])*"/g,
    (match, before) => {
      if (match.startsWith('/*')) return ' ';
      if (match.startsWith("'") || match.startsWith('"')) return match;
      return before ?? '';
    },
  );
}

/** Everything a file imports, types alone included. */
export function importsOf(source) {
  const text = withoutComments(source);
  return [
    /(?:^|[;}\s])(?:import|export)\s+(?:type\s+)?(?:[\w*$\s{},]+?)\s*from\s*(['"])(?<target>[^'"\n]+)\1/g,
    /(?:^|[;}\s])import\s*(['"])(?<target>[^'"\n]+)\1/g,
    /\bimport\s*\(\s*(['"])(?<target>[^'"\n]+)\1/g,
    /\bnew\s+URL\s*\(\s*(['"])(?<target>\.[^'"\n]+)\1\s*,\s*import\.meta\.url/g,
    /\brequire\s*\(\s*(['"])(?<target>[^'"\n]+)\1/g,
  ].flatMap((pattern) => [...text.matchAll(pattern)].map((match) => match.groups.target));
}

function sourcesIn(dir) {
  if (!existsSync(dir)) return [];
  return readdirSync(dir, { withFileTypes: true }).flatMap((entry) => {
    const path = join(dir, entry.name);
    // Kernels in assembly/ are another language with the same file ending.
    if (entry.isDirectory()) return entry.name === 'assembly' ? [] : sourcesIn(path);
    return SOURCE.test(entry.name) ? [path] : [];
  });
}

/** `core/film/marks.ts` → top `core`, folder `film`, or '' for a file that lies directly in the top folder. */
function place(file) {
  const [top, second, ...rest] = file.split('/');
  return { top, folder: rest.length > 0 ? second : '', file: [second, ...rest].at(-1) };
}

function trouble(from, to, target) {
  const a = place(from);
  const b = place(to);
  const allowed = TOP[a.top];
  if (!allowed.includes(b.top))
    return `${from} imports ${to}: ${a.top} may not import ${b.top} (${WHY[a.top]}).`;
  if (a.top === 'core' && b.top === 'core' && a.folder !== b.folder) {
    if (b.folder === '')
      return `${from} imports ${to}: core's own files see the folders, no folder sees them.`;
    if (a.folder !== '') {
      const may = CORE[a.folder];
      if (!may) return `${from}: the folder core/${a.folder} is not in the table of build/arrows.mjs.`;
      if (!may.includes(b.folder))
        return `${from} imports ${to}: ${a.folder} may import ${may.join(', ') || 'nothing'}, not ${b.folder}.`;
    }
  }
  const apart = a.top !== b.top || a.folder !== b.folder;
  const indexed = b.top === 'core' || (b.top === 'electron' && b.folder !== '');
  if (apart && indexed && b.folder !== '' && b.file !== 'index.ts')
    return `${from} imports ${target}: another folder is imported through its index.ts.`;
  return null;
}

/** A way round from a file back to itself over imports, those of types alone included, or null. */
function cycleIn(graph) {
  const state = new Map();
  const trail = [];
  const visit = (file) => {
    state.set(file, 'open');
    trail.push(file);
    for (const next of graph.get(file) ?? []) {
      if (state.get(next) === 'open') return [...trail.slice(trail.indexOf(next)), next];
      if (!state.has(next)) {
        const found = visit(next);
        if (found) return found;
      }
    }
    trail.pop();
    state.set(file, 'closed');
    return null;
  };
  for (const file of [...graph.keys()].sort()) {
    if (state.has(file)) continue;
    const found = visit(file);
    if (found) return found;
  }
  return null;
}

/** Every forbidden arrow and the first cycle in the tree at `root`, each as a sentence that says why. */
export function checkArrows(root = ROOT) {
  const problems = [];
  const graph = new Map();
  for (const top of Object.keys(TOP)) {
    for (const path of sourcesIn(join(root, top))) {
      const from = relative(root, path).split(sep).join('/');
      const edges = [];
      for (const target of importsOf(readFileSync(path, 'utf8'))) {
        if (!target.startsWith('.')) {
          if (top === 'core' && IMPURE.test(target))
            problems.push(
              `${from} imports ${target}: core is pure and may use no machine, window or native package.`,
            );
          continue;
        }
        const absolute = resolve(dirname(path), target.replace(/\?.*$/, ''));
        const to = relative(root, absolute).split(sep).join('/');
        if (!existsSync(absolute)) {
          problems.push(`${from} imports ${target}, which does not exist (write the ending, .ts).`);
          continue;
        }
        if (to.startsWith('..') || !(place(to).top in TOP)) {
          // Data and styles of packages are the bundler's business.
          if (SOURCE.test(to) || to.startsWith('..'))
            problems.push(`${from} imports ${to}: ${top} may import only ${TOP[top].join(' and ')}.`);
          continue;
        }
        const said = trouble(from, to, target);
        if (said) problems.push(said);
        if (to !== from) edges.push(to);
      }
      graph.set(from, edges);
    }
  }
  const cycle = cycleIn(graph);
  if (cycle) problems.push(`These files import each other in a ring: ${cycle.join(' → ')}.`);
  return problems;
}

if (isEntry(import.meta)) {
  const problems = checkArrows();
  for (const problem of problems) process.stdout.write(`${problem}\n`);
  if (problems.length > 0) process.exitCode = 1;
  else process.stdout.write('Every arrow between the folders is allowed.\n');
}
