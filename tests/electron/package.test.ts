import { execFile } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
// @ts-expect-error plain JavaScript without types
import { build } from '../../build/build.mjs';
import { trialInChild } from '../../electron/host/index.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const require = createRequire(join(ROOT, 'package.json'));
const config = JSON.parse(readFileSync(join(ROOT, 'build/electron-builder.json'), 'utf8')) as {
  fileAssociations: { ext: string }[];
  electronFuses: Record<string, boolean>;
};

/** The sentinel that marks the fuses inside Electron's program, and the wire's version: @electron/fuses documents both. */
const SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';

/** A folder that looks like an unpacked runtime: the packer copies it and flips the fuses of its program. */
function standInRuntime(dir: string): void {
  mkdirSync(join(dir, 'resources'), { recursive: true });
  const wire = Buffer.concat([Buffer.from(SENTINEL), Buffer.from([1, 9]), Buffer.from('011001101')]);
  writeFileSync(join(dir, 'electron'), Buffer.concat([Buffer.alloc(4096, 1), wire, Buffer.alloc(4096, 1)]), {
    mode: 0o755,
  });
  for (const name of ['version', 'LICENSE', 'LICENSES.chromium.html'])
    writeFileSync(join(dir, name), 'stand-in');
}

test('the packaging settings are valid by the packer’s own schema, and give jobs to Kickflat', async () => {
  const { validateConfiguration } = require('app-builder-lib/out/util/config/config.js');
  const { DebugLogger } = require('builder-util');
  await validateConfiguration(structuredClone(config), new DebugLogger(false));
  await expect(validateConfiguration({ ...config, nonsense: 1 }, new DebugLogger(false))).rejects.toThrow(
    'nonsense',
  );
  expect(config.fileAssociations.map((a) => a.ext)).toEqual(['kickflat']);
});

describe.skipIf(process.platform !== 'linux')('a package made offline round a stand-in runtime', () => {
  let dir: string;
  let app: string;
  let listed: string[];
  beforeAll(async () => {
    dir = mkdtempSync(join(tmpdir(), 'kickflat-package-'));
    standInRuntime(join(dir, 'runtime'));
    await (build as () => Promise<unknown>)();
    const cli = join(ROOT, 'node_modules/electron-builder/cli.js');
    await promisify(execFile)(
      process.execPath,
      [
        cli,
        '--linux',
        '--dir',
        '--config',
        'build/electron-builder.json',
        `-c.electronDist=${join(dir, 'runtime')}`,
        `-c.directories.output=${join(dir, 'out')}`,
      ],
      { cwd: ROOT },
    );
    app = join(dir, 'out', 'linux-unpacked');
    listed = (
      require('@electron/asar') as { listPackage(path: string, options: object): string[] }
    ).listPackage(join(app, 'resources', 'app.asar'), { isPack: false });
  }, 180_000);
  afterAll(() => rmSync(dir, { recursive: true, force: true }));

  test('holds the program, the page, the demonstration and the licence, and nothing of the workshop', () => {
    for (const path of [
      '/dist/electron/main.cjs',
      '/dist/electron/preload.cjs',
      '/dist/host/worker.cjs',
      '/dist/renderer/index.html',
      '/dist/demo/scenario.json',
      '/package.json',
      '/LICENSE',
      '/node_modules/sharp/package.json',
    ])
      expect(listed).toContain(path);
    const top = new Set(listed.map((path) => path.split('/')[1]));
    expect([...top].sort()).toEqual(['LICENSE', 'dist', 'node_modules', 'package.json']);
    expect(listed.filter((path) => /\/dist\/(types|stamps|packages)/.test(path))).toEqual([]);
    const packages = new Set(
      listed.filter((p) => p.startsWith('/node_modules/')).map((p) => p.split('/')[2]),
    );
    expect([...packages].sort()).toEqual(['@img', '@napi-rs', 'detect-libc', 'semver', 'sharp']);
  });

  test('keeps outside the archive what threads and the system must open themselves', () => {
    const outside = join(app, 'resources', 'app.asar.unpacked');
    expect(existsSync(join(outside, 'dist/host/worker.cjs'))).toBe(true);
    const native = readdirSync(join(outside, 'node_modules/@img'), { recursive: true }).map(String);
    expect(native.some((name) => name.endsWith('.node'))).toBe(true);
    expect(native.some((name) => /libvips.*\.so/.test(name))).toBe(true);
  });

  test('can try out a drawing in a process of its own, from what lies outside the archive', async () => {
    const trial = join(app, 'resources', 'app.asar.unpacked', 'dist/host/trial.cjs');
    const svg = Buffer.from(
      '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="6"><path fill="#e8613c" d="M0 0h9v6H0z"/></svg>',
    );
    // Drawn at 96 points an inch, so that a px is a point.
    const picture = await trialInChild(trial)(svg, 60);
    if (picture === 'late') throw new Error('It took too long.');
    expect([...picture.data.subarray(0, 4)]).toEqual([0xe8, 0x61, 0x3c, 255]);
    expect(await trialInChild(trial)(svg, 60, true)).toEqual({
      width: picture.width,
      height: picture.height,
      data: new Uint8Array(0),
    });
    await expect(trialInChild(trial)(svg.subarray(0, 40), 60, true)).rejects.toThrow();
  });

  test('has its fuses set: no Node by the back door, only the archive is loaded', () => {
    const program = readFileSync(join(app, 'kickflat'));
    const at = program.indexOf(SENTINEL) + SENTINEL.length;
    // Order of the wire by @electron/fuses' FuseV1Options.
    const order = require('@electron/fuses').FuseV1Options as Record<string, number>;
    const state = (name: string) => String.fromCharCode(program[at + 2 + (order[name] as number)] as number);
    expect(state('RunAsNode')).toBe('0');
    expect(state('EnableCookieEncryption')).toBe('1');
    expect(state('EnableNodeOptionsEnvironmentVariable')).toBe('0');
    expect(state('EnableNodeCliInspectArguments')).toBe('0');
    expect(state('OnlyLoadAppFromAsar')).toBe('1');
    expect(state('GrantFileProtocolExtraPrivileges')).toBe('0');
    expect(config.electronFuses['enableEmbeddedAsarIntegrityValidation']).toBe(true);
  });
});
