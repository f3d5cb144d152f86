import { EventEmitter } from 'node:events';
import { expect, test } from 'vitest';
import { trialInUtility } from '../../electron/utilityTrial.ts';

/** Stands in for Electron's UtilityProcess: messages in, `message` and `exit` out, `kill` ends it. */
class StandIn extends EventEmitter {
  sent: unknown[] = [];
  killed = 0;
  postMessage(message: unknown) {
    this.sent.push(message);
  }
  kill() {
    this.killed++;
    this.emit('exit', 143);
    return true;
  }
}

function trial() {
  const child = new StandIn();
  return { child, draw: trialInUtility(() => child as never) };
}
const SVG = new Uint8Array([60, 115, 118, 103, 62]);

test('a drawing goes to a process of its own, whose picture comes back and which is then ended', async () => {
  const { child, draw } = trial();
  const drawn = draw(SVG, 60);
  expect(child.sent).toEqual([SVG]);
  const picture = { width: 1, height: 1, data: new Uint8Array(4) };
  child.emit('message', { picture });
  expect(await drawn).toBe(picture);
  expect(child.killed).toBe(1);
});

test('one that takes too long is ended, one that can not be drawn or whose process dies is an error', async () => {
  const slow = trial();
  expect(await slow.draw(SVG, 0.02)).toBe('late');
  expect(slow.child.killed).toBe(1);
  const bad = trial();
  const refused = bad.draw(SVG, 60);
  bad.child.emit('message', { error: 'no drawing' });
  await expect(refused).rejects.toThrow('no drawing');
  const dead = trial();
  const lost = dead.draw(SVG, 60);
  dead.child.emit('exit', 139);
  await expect(lost).rejects.toThrow('139');
});
