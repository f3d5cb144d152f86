/**
 * Lets at most `most` pieces of work go on at once; the others wait for their turn in the order in which they came. What a piece
 * resolves or rejects with is passed on.
 */
export function turns(most: number): <T>(work: () => Promise<T>) => Promise<T> {
  let going = 0;
  const waiting: (() => void)[] = [];
  return async (work) => {
    if (going >= most) await new Promise<void>((resolve) => waiting.push(resolve));
    else going++;
    try {
      return await work();
    } finally {
      const next = waiting.shift();
      // Whoever comes next takes over this one's place.
      if (next) next();
      else going--;
    }
  };
}
