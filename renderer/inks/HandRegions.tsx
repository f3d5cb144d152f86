import type { HandRegion, Ink } from '../../core/job/index.ts';
import { Icon } from '../bench/index.ts';
import { changeArt, edit, useStudio } from '../state/index.ts';

/** What a region does, in words. */
function words({ shape, to, only, bareStays }: HandRegion, inks: readonly Ink[]): string {
  const name = (id: string | null) => inks.find((i) => i.id === id)?.name ?? 'bare wood';
  const what = only !== null ? `${name(only)} ` : bareStays ? '' : 'everything ';
  return `${shape.kind === 'brush' ? 'Brush' : 'Region'}: ${what}to ${name(to)}`;
}

/** Regions drawn by hand, in the order they were drawn; the one under the pointer is outlined on the deck. */
export function HandRegions() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const shown = useStudio((s) => s.regionId);
  const { art, inks } = job.faces[face];
  const all = art.flatMap((piece) => (piece.regions ?? []).map((region) => ({ piece, region })));
  if (all.length === 0) return null;
  const show = (at: { art: string; id: string } | null) => useStudio.setState({ regionId: at });
  return (
    <ul className="hand-list" aria-label="Regions given by hand">
      {all.map(({ piece, region }) => {
        const at = { art: piece.id, id: region.id };
        const on = shown?.art === at.art && shown.id === at.id;
        const text = words(region, inks);
        return (
          <li
            key={`${piece.id} ${region.id}`}
            onPointerEnter={() => show(at)}
            onPointerLeave={() => show(null)}
          >
            <span
              className="ink-drop"
              style={{ background: inks.find((i) => i.id === region.to)?.hex ?? 'var(--wood)' }}
            />
            <button
              type="button"
              className="hand-region"
              aria-pressed={on}
              onClick={() => show(on ? null : at)}
            >
              {text}
              {art.length > 1 && <small>{piece.name}</small>}
            </button>
            <button
              type="button"
              aria-label={`Remove: ${text}`}
              onClick={() => {
                show(null);
                edit('Remove a region', (j) =>
                  changeArt(j, face, piece.id, {
                    regions: (piece.regions ?? []).filter((r) => r.id !== region.id),
                  }),
                );
              }}
            >
              <Icon name="bin" />
            </button>
          </li>
        );
      })}
    </ul>
  );
}
