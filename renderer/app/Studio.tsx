import { useEffect, useLayoutEffect, useState } from 'react';
import type { ShellInfo } from '../../core/ports/index.ts';
import {
  comeBack,
  keepMoved,
  keepPlace,
  keepPlans,
  keepProofs,
  keepUnsavedWork,
  lastPage,
  loadShop,
  shell,
} from '../acts/index.ts';
import { Board } from '../board/index.ts';
import { Guide } from '../guide/index.ts';
import { sealEdits, useStudio } from '../state/index.ts';
import { Bench } from './Bench.tsx';
import { DropPlace } from './DropPlace.tsx';
import { Header } from './Header.tsx';
import { Notices } from './Notices.tsx';
import { Rail } from './Rail.tsx';
import { shortcuts } from './shortcuts.ts';
import { wearTheme } from './theme.ts';
import { Welcome } from './Welcome.tsx';

/** The whole window: one deck on its bench, the rail of stations, the cards of the open station. */
export function Studio() {
  const open = useStudio((s) => s.job !== null);
  const name = useStudio((s) => s.job?.name);
  const unsaved = useStudio((s) => s.job !== s.saved);
  const theme = useStudio((s) => s.shop.bench?.theme ?? 'system');
  const [info, setInfo] = useState<ShellInfo | null>(null);

  useEffect(() => {
    const last = lastPage();
    const stops = [keepProofs(), keepPlans(), keepUnsavedWork(), keepPlace(), keepMoved(), shortcuts()];
    window.addEventListener('pointerup', sealEdits);
    void loadShop();
    void shell()
      .info()
      .then(async (got) => {
        setInfo(got);
        await comeBack(got, last);
      });
    return () => {
      for (const stop of stops) stop();
      window.removeEventListener('pointerup', sealEdits);
    };
  }, []);
  useEffect(() => {
    document.title = name ? `${name}${unsaved ? ' (unsaved)' : ''} – Kickflat` : 'Kickflat';
  }, [name, unsaved]);
  useLayoutEffect(() => wearTheme(theme), [theme]);
  useEffect(() => {
    if (!unsaved) return;
    const ask = (e: BeforeUnloadEvent) => e.preventDefault();
    window.addEventListener('beforeunload', ask);
    return () => window.removeEventListener('beforeunload', ask);
  }, [unsaved]);

  return (
    <DropPlace>
      {open ? (
        <div className="studio">
          <Header />
          <Board />
          <Rail />
          <Bench />
        </div>
      ) : (
        <Welcome info={info} />
      )}
      <Notices />
      <Guide />
    </DropPlace>
  );
}
