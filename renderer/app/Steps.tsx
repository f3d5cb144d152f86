import { Button, Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { redo, undo, useStudio } from '../state/index.ts';

/** Goes back, or forward again, until `steps` edits are made. */
const goTo = (steps: number) => {
  for (let n = useStudio.getState().history.past.length; n > steps; n--) undo();
  for (let n = useStudio.getState().history.past.length; n < steps; n++) redo();
};

/** Every edit by name, the newest first; any of them can be gone back to. */
export function Steps() {
  const past = useStudio((s) => s.history.past);
  const future = useStudio((s) => s.history.future);
  const all = [...past, ...future];
  if (all.length === 0) return null;
  return (
    <DialogTrigger>
      <Button className="steps-button" aria-label={`All ${all.length} edits`}>
        {past.length}
      </Button>
      <Popover placement="bottom start" className="popover">
        <Dialog aria-label="Edits" className="problems steps">
          <ol reversed>
            {all
              .map((edit, i) => ({ edit, made: i + 1 }))
              .reverse()
              .map(({ edit, made }) => (
                <li key={made}>
                  <button
                    type="button"
                    aria-current={made === past.length ? 'step' : undefined}
                    className={made > past.length ? 'undone' : ''}
                    onClick={() => goTo(made)}
                  >
                    {edit.label}
                  </button>
                </li>
              ))}
            <li>
              <button
                type="button"
                aria-current={past.length === 0 ? 'step' : undefined}
                onClick={() => goTo(0)}
              >
                As it was opened
              </button>
            </li>
          </ol>
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
