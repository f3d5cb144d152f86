import type { Bench } from '../../core/shop/index.ts';

export type Theme = NonNullable<Bench['theme']>;
const system = () => window.matchMedia('(prefers-color-scheme: dark)');

/** Whether the bench is dark now: as chosen, else as the system is. */
export const isDark = (theme: Theme): boolean => theme === 'dark' || (theme === 'system' && system().matches);

/** Gives the page the bench's colours, and keeps in step with the system where nothing is chosen. Returns what stops it. */
export function wearTheme(theme: Theme): () => void {
  const wear = () => {
    document.documentElement.dataset['theme'] = isDark(theme) ? 'dark' : 'light';
  };
  wear();
  const watched = system();
  watched.addEventListener('change', wear);
  return () => watched.removeEventListener('change', wear);
}
