import { Button, GridList, GridListItem, useDragAndDrop } from 'react-aria-components';
import { inkFrom } from '../../core/job/index.ts';
import { Card, Icon, Picture } from '../bench/index.ts';
import { addInk, edit, inkColour, moveInk, useStudio } from '../state/index.ts';

/** The face's inks in the order they are pulled. Rows are dragged, or moved with their arrows. */
export function Pulls() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const inkId = useStudio((s) => s.inkId);
  const aloneId = useStudio((s) => s.aloneId);
  const prints = useStudio((s) => s.proofs?.prints);
  const colourway = useStudio((s) => s.colourwayId);
  const { inks } = job.faces[face];
  const chosen = inkId ?? inks[0]?.id;
  // Before the art is there, nothing is known of what it prints.
  const drawn = useStudio((s) => job.faces[face].art.every((a) => a.hidden || s.pictures.has(a.hash)));
  const shift = (from: number, to: number) => edit('Reorder pulls', (j) => moveInk(j, face, from, to));

  const { dragAndDropHooks } = useDragAndDrop({
    getItems: (keys) => [...keys].map((key) => ({ 'text/plain': String(key) })),
    onReorder: (e) => {
      const from = inks.findIndex((i) => e.keys.has(i.id));
      const target = inks.findIndex((i) => i.id === e.target.key);
      if (from < 0 || target < 0) return;
      const gap = e.target.dropPosition === 'after' ? target + 1 : target;
      shift(from, from < gap ? gap - 1 : gap);
    },
  });
  const add = (role: 'colour' | 'base') => {
    const start =
      role === 'base'
        ? { name: 'Base white', hex: '#f7f3e8', role, opacity: 0.9, meshPerCm: 55 }
        : { name: `Ink ${inks.length + 1}`, hex: '#8a8f98' };
    const ink = inkFrom(start, inks);
    edit(role === 'base' ? 'Add a base' : 'Add an ink', (j) => addInk(j, face, ink));
    useStudio.setState({ inkId: ink.id });
  };
  return (
    <Card
      title={`Pulls, ${face}`}
      wide
      action={
        <span className="tape-actions">
          <button type="button" className="tape-button" onClick={() => add('colour')}>
            <Icon name="plus" /> Ink
          </button>
          {!inks.some((i) => i.role === 'base') && (
            <button type="button" className="tape-button" onClick={() => add('base')}>
              <Icon name="plus" /> Base
            </button>
          )}
        </span>
      }
    >
      {inks.length === 0 && (
        <p className="empty">No inks yet. Let them be suggested from the art, or add one.</p>
      )}
      <GridList
        aria-label="Inks in pull order"
        className="pulls"
        items={inks}
        selectionMode="single"
        selectionBehavior="replace"
        disallowEmptySelection
        selectedKeys={chosen === undefined ? [] : [chosen]}
        onSelectionChange={(keys) => {
          const [key] = keys === 'all' ? [] : [...keys];
          if (key !== undefined) useStudio.setState({ inkId: String(key) });
        }}
        dragAndDropHooks={dragAndDropHooks}
        dependencies={[prints, aloneId, colourway, drawn]}
      >
        {(ink) => {
          const at = inks.findIndex((i) => i.id === ink.id);
          const colour = inkColour(job, ink, colourway);
          const print = prints?.get(ink.id);
          const alone = aloneId === ink.id;
          return (
            <GridListItem id={ink.id} textValue={`Pull ${at + 1}, ${colour.name}`} className="pull">
              <Button slot="drag" className="grip" aria-label={`Move ${colour.name}`}>
                <Icon name="grip" />
              </Button>
              <span className="pull-number">{at + 1}</span>
              <span className="ink-drop" style={{ background: colour.hex }} />
              <span className="pull-text">
                <b>{colour.name}</b>
                <small>
                  {ink.role === 'base'
                    ? 'base under others'
                    : ink.needsBase === 'all' || ink.needsBase.length > 0
                      ? 'on the base'
                      : 'on bare wood'}
                  {print && drawn
                    ? ` · ${print.cm2 < 100 ? print.cm2.toFixed(1) : Math.round(print.cm2)} cm²`
                    : ''}
                </small>
              </span>
              <Picture bitmap={print?.picture} label={`What ${colour.name} prints`} />
              <span className="row-tools">
                <Button
                  aria-label={`Pull ${colour.name} earlier`}
                  isDisabled={at === 0}
                  onPress={() => shift(at, at - 1)}
                >
                  <Icon name="up" />
                </Button>
                <Button
                  aria-label={`Pull ${colour.name} later`}
                  isDisabled={at === inks.length - 1}
                  onPress={() => shift(at, at + 1)}
                >
                  <Icon name="down" />
                </Button>
                <Button
                  aria-label={alone ? `Show the whole proof` : `Show ${colour.name} alone`}
                  className={alone ? 'on' : ''}
                  onPress={() => useStudio.setState({ aloneId: alone ? null : ink.id, inkId: ink.id })}
                >
                  <Icon name="eye" />
                </Button>
              </span>
            </GridListItem>
          );
        }}
      </GridList>
    </Card>
  );
}
