import { useStudio } from '../state/index.ts';

/** A button that starts long work on the films; while such work goes on, how far it is and a way to stop it. */
export function WorkButton({
  words,
  doing,
  ready,
  onStart,
}: {
  words: string;
  /** What goes on, for screen readers. */
  doing: string;
  ready: boolean;
  onStart: () => void;
}) {
  const working = useStudio((s) => s.exporting);
  if (!working)
    return (
      <button type="button" className="button-main" disabled={!ready} onClick={onStart}>
        {words}
      </button>
    );
  return (
    <div className="progress">
      <progress value={working.done} max={1} aria-label={doing} />
      <p aria-live="polite">{working.text}</p>
      <button type="button" onClick={working.cancel}>
        Stop
      </button>
    </div>
  );
}
