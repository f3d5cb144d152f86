import { tell, useStudio } from '../state/index.ts';

/** Marks work that goes on out of sight as begun or ended. */
export function working(name: string, on: boolean): void {
  const { working: now } = useStudio.getState();
  if (now.includes(name) === on) return;
  useStudio.setState({ working: on ? [...now, name] : now.filter((w) => w !== name) });
}

/** What is done when such work breaks: a bug, so the console gets it whole and the user one sentence. */
export const failed = (name: string) => (error: unknown) => {
  working(name, false);
  console.error(error);
  tell(
    'trouble',
    `The ${name} could not be drawn.`,
    'Undo the last change; if it stays so, save the job and report it.',
  );
};
