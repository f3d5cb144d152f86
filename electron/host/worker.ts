import { parentPort } from 'node:worker_threads';
import { TASKS } from '../../core/tasks.ts';
import type { TaskAnswer, TaskCall } from './workerPool.ts';

/** One thread of the pool: runs the named task and answers. */
parentPort?.on('message', async (call: TaskCall) => {
  let answer: TaskAnswer;
  try {
    const task = (TASKS as Readonly<Record<string, (input: never) => unknown>>)[call.task];
    if (!task) throw new Error(`There is no task “${call.task}”.`);
    answer = { id: call.id, output: await task(call.input as never) };
  } catch (error) {
    const { message, stack } = error instanceof Error ? error : new Error(String(error));
    answer = { id: call.id, error: message, stack: stack ?? message };
  }
  parentPort?.postMessage(answer);
});
