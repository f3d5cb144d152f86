import { dragOut, showMade } from '../acts/index.ts';
import { Icon } from '../bench/index.ts';
import type { MadeFiles as Files } from '../state/index.ts';

/** The files a person takes elsewhere first; the rest are in the folder. */
const SHOWN = 4;
const isPage = (name: string) => name.endsWith('.pdf');

/** Made files, each to be dragged to the desktop or another program, and the folder they are in. */
export function MadeFiles({ made: { handle, names } }: { made: Files }) {
  const first = [...names].sort((a, b) => Number(isPage(b)) - Number(isPage(a))).slice(0, SHOWN);
  return (
    <div className="made-files">
      <ul aria-label="Files to drag out">
        {first.map((name) => (
          <li
            key={name}
            draggable
            title="Drag it to your desktop or another window"
            onDragStart={(e) => {
              e.preventDefault();
              dragOut(handle, name);
            }}
          >
            {name}
          </li>
        ))}
      </ul>
      <button type="button" onClick={() => void showMade(handle)}>
        <Icon name="open" /> Show in folder
      </button>
    </div>
  );
}
