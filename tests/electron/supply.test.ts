import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
// @ts-expect-error plain JavaScript without types
import * as licences from '../../build/licences.mjs';

const read = (path: string) => readFileSync(fileURLToPath(new URL(`../../${path}`, import.meta.url)), 'utf8');
interface Entry {
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly license?: string;
  readonly link?: boolean;
  readonly inBundle?: boolean;
  readonly dev?: boolean;
  readonly devOptional?: boolean;
}
const lock = JSON.parse(read('package-lock.json')) as {
  lockfileVersion: number;
  packages: Record<string, Entry & { dependencies?: object; devDependencies?: object }>;
};
const own = JSON.parse(read('package.json')) as Record<
  'dependencies' | 'devDependencies',
  Record<string, string>
>;
const { allowed } = licences as { allowed(licence: string, name: string): boolean };
const packages = Object.entries(lock.packages).filter(([path]) => path !== '');
const nameOf = (path: string) => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);

/** Of the workshop's tools alone, which are not shipped: file-wide copyleft and data licences are no burden there. */
const TOOLS_TOO = /^(MPL-2\.0|CC-BY-4\.0|CC-BY-3\.0|WTFPL|Artistic-2\.0|BlueOak-1\.0\.0)$/;

describe('what is installed', () => {
  test('every package is held to its bytes by SHA-512, and names no place it would be fetched from', () => {
    expect(lock.lockfileVersion).toBe(3);
    expect(packages.length).toBeGreaterThan(100);
    for (const [path, entry] of packages) {
      expect(entry.link, path).toBeUndefined();
      if (!entry.inBundle) expect(entry.integrity, path).toMatch(/^sha512-[A-Za-z0-9+/]{86}==$/);
      expect(entry.resolved, path).toBeUndefined();
      expect(entry.version, path).toMatch(/^\d+\.\d+\.\d+([-+][\w.-]+)?$/);
    }
    expect(read('package-lock.json')).not.toMatch(/\bregistry\.[\w-]+/);
  });

  test('the packages asked for are asked for by exact version, and the lock file is theirs', () => {
    for (const kind of ['dependencies', 'devDependencies'] as const) {
      expect(lock.packages['']?.[kind]).toEqual(own[kind]);
      for (const [name, version] of Object.entries(own[kind])) {
        expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
        expect(lock.packages[`node_modules/${name}`]?.version, name).toBe(version);
      }
    }
  });

  test('every licence is a known one; what is not shipped may be under a few more', () => {
    const strange = packages.filter(([path, { license = '', dev, devOptional }]) => {
      if (allowed(license, nameOf(path))) return false;
      const ways = license.replace(/^\(|\)$/g, '').split(' OR ');
      return !(
        (dev || devOptional) &&
        ways.some((way) =>
          way.split(' AND ').every((one) => TOOLS_TOO.test(one) || allowed(one, nameOf(path))),
        )
      );
    });
    expect(strange.map(([path, { license }]) => `${path}: ${license}`)).toEqual([]);
  });

  test('every library that is shipped has its reason in DEVELOPERS.md', () => {
    const reasons = read('DEVELOPERS.md').split('## Why these libraries')[1]?.split('\n## ')[0] ?? '';
    // Typefaces are one family of packages, with one reason.
    const named = (name: string) =>
      [
        name,
        name.replace(/^@[\w-]+\//, ''),
        name.replace(/-dom$/, ''),
        name.replace(/^@(fontsource)\/.*$/, '$1'),
      ].some((n) => reasons.includes(n));
    expect(Object.keys(own.dependencies).filter((name) => !named(name))).toEqual([]);
  });
});
