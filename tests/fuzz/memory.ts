import { readFileSync } from 'node:fs';

function numbers(path: string): number[] {
  try {
    return readFileSync(path, 'utf8').trim().split(/\s+/).filter(Boolean).map(Number);
  } catch {
    return [];
  }
}

/** Bytes that a process and all it started hold now; 0 where the system does not tell (it does on Linux). */
export function memoryOf(pid: number): number {
  let bytes = 0;
  try {
    const kb = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    bytes = Number(kb ?? 0) * 1024;
  } catch {
    return 0;
  }
  for (const child of numbers(`/proc/${pid}/task/${pid}/children`)) bytes += memoryOf(child);
  return bytes;
}
