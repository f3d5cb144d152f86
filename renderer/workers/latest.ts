/**
 * Runs one request at a time and, when more come meanwhile, only the newest of them: what is shown is never more than
 * one request behind, and a fast hand never queues work.
 */
export function latestWins<In, Out>(
  run: (input: In) => Promise<Out>,
  deliver: (out: Out, input: In) => void,
  failed: (error: unknown) => void,
): (input: In) => void {
  let running = false;
  let next: { input: In } | null = null;
  const start = async (input: In): Promise<void> => {
    running = true;
    try {
      const out = await run(input);
      deliver(out, input);
    } catch (error) {
      failed(error);
    }
    running = false;
    if (next) {
      const { input: newest } = next;
      next = null;
      void start(newest);
    }
  };
  return (input) => {
    if (running) next = { input };
    else void start(input);
  };
}
