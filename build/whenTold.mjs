import { fileURLToPath } from 'node:url';

/**
 * The command line in a process that is started before anybody knows whether what is built is up to date: Node takes a tenth of a second to
 * begin, and the program that started this one looks meanwhile. Nothing that is built is read before it says so.
 */
process.once('message', async () => {
  const { href } = new URL('../dist/cli.mjs', import.meta.url);
  // As if it had been started itself.
  process.argv[1] = fileURLToPath(href);
  await import(href);
});
// A program that was ended meanwhile says nothing more; without a listener this one ends with it.
