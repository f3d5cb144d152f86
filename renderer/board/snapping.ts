import type { FaceJob } from '../../core/job/index.ts';
import type { SnapLine } from './drawGuides.ts';
import { boxOf, type FaceShape } from './faceShape.ts';

type Guide = NonNullable<FaceJob['guides']>[number];

/** Lines that a piece of art snaps to: by its middle to the first kind, by its edges to the second. */
interface Target {
  readonly at: number;
  readonly name: string;
  readonly by: 'middle' | 'edge';
}

function targets(
  shape: FaceShape,
  guides: readonly Guide[],
): { readonly s: readonly Target[]; readonly t: readonly Target[] } {
  const print = boxOf(shape.printable[0] ?? shape.outline);
  const s: Target[] = [{ at: 0, name: 'mid-wheelbase', by: 'middle' }];
  s.push({ at: print.x + print.width / 2, name: 'middle of the printable area', by: 'middle' });
  s.push(
    { at: print.x, name: 'printable edge', by: 'edge' },
    { at: print.x + print.width, name: 'printable edge', by: 'edge' },
  );
  for (const at of [...shape.inner, ...shape.outer]) s.push({ at, name: 'truck holes', by: 'edge' });
  const t: Target[] = [{ at: 0, name: 'centreline', by: 'middle' }];
  for (const { along, at } of guides)
    for (const by of ['middle', 'edge'] as const) (along === 's' ? s : t).push({ at, name: 'guide', by });
  t.push(
    { at: print.y, name: 'printable edge', by: 'edge' },
    { at: print.y + print.height, name: 'printable edge', by: 'edge' },
  );
  return { s, t };
}

/** How far to move a box, mm, so that it lies on the nearest line of each axis, and which lines those are. */
export function snap(
  shape: FaceShape,
  box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
  within: number,
  guides: readonly Guide[] = [],
): { readonly ds: number; readonly dt: number; readonly lines: readonly SnapLine[] } {
  const lines: SnapLine[] = [];
  const all = targets(shape, guides);
  const best = (along: 's' | 't', low: number, size: number) => {
    let move = 0;
    let found: Target | null = null;
    let least = within;
    for (const target of all[along])
      for (const edge of target.by === 'middle' ? [low + size / 2] : [low, low + size]) {
        const away = target.at - edge;
        if (Math.abs(away) < least) {
          least = Math.abs(away);
          move = away;
          found = target;
        }
      }
    if (found !== null) lines.push({ along, at: (found as Target).at, name: (found as Target).name });
    return move;
  };
  const ds = best('s', box.x, box.width);
  const dt = best('t', box.y, box.height);
  return { ds, dt, lines };
}
