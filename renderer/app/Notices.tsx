import { useEffect } from 'react';
import { Icon } from '../bench/index.ts';
import { dismiss, type Notice, useStudio } from '../state/index.ts';
import { MadeFiles } from './MadeFiles.tsx';

function Strip({ notice }: { notice: Notice }) {
  useEffect(() => {
    // Trouble stays until it is read, and files until they were taken.
    if (notice.tone === 'trouble' || notice.made) return;
    const timer = setTimeout(() => dismiss(notice.id), notice.mend ? 14000 : 6000);
    return () => clearTimeout(timer);
  }, [notice]);
  return (
    <li className={`notice ${notice.tone}`}>
      <Icon name={notice.tone === 'done' ? 'tick' : 'flag'} />
      <div className="notice-words">
        <p>
          <b>{notice.text}</b> {notice.mend}
        </p>
        {notice.made && <MadeFiles made={notice.made} />}
      </div>
      <button type="button" aria-label="Put away" onClick={() => dismiss(notice.id)}>
        <Icon name="close" />
      </button>
    </li>
  );
}

/** Strips of tape with what just happened. */
export function Notices() {
  const notices = useStudio((s) => s.notices);
  return (
    <ul className="notices" aria-live="polite" aria-label="Messages">
      {notices.map((n) => (
        <Strip key={n.id} notice={n} />
      ))}
    </ul>
  );
}
