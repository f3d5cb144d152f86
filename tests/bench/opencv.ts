import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export interface Answer {
  readonly ms: number;
  readonly check: unknown;
}

const PYTHON = '/usr/bin/python3';

/** A running Python with OpenCV that times what it is asked to do, or null where the package is missing. */
export class OpenCv {
  private readonly waiting: ((line: string) => void)[] = [];
  private text = '';

  private constructor(private readonly child: ChildProcess) {
    child.stdout?.on('data', (chunk: Buffer) => {
      this.text += chunk.toString();
      for (let end = this.text.indexOf('\n'); end >= 0; end = this.text.indexOf('\n')) {
        this.waiting.shift()?.(this.text.slice(0, end));
        this.text = this.text.slice(end + 1);
      }
    });
    child.on('close', () => {
      for (const answer of this.waiting.splice(0)) answer('{}');
    });
  }

  static start(): OpenCv | null {
    const found = spawnSync(PYTHON, ['-c', 'import cv2, numpy'], { stdio: 'ignore' });
    if (found.status !== 0) return null;
    const script = fileURLToPath(new URL('peers.py', import.meta.url));
    return new OpenCv(spawn(PYTHON, [script], { stdio: ['pipe', 'pipe', 'inherit'] }));
  }

  ask(name: string, args: Record<string, unknown> = {}): Promise<Answer> {
    return new Promise((resolve) => {
      this.waiting.push((line) => resolve(JSON.parse(line) as Answer));
      this.child.stdin?.write(`${JSON.stringify({ name, ...args })}\n`);
    });
  }

  stop(): void {
    this.child.stdin?.end();
  }
}
