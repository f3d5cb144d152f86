import { INK_KINDS, type Ink, mergeInks } from '../../core/job/index.ts';
import { approximationOf } from '../../core/proof/index.ts';
import { Card, Choice, LengthField, NumberBox, Pick, Share, Toggle } from '../bench/index.ts';
import { changeInk, edit, onFace, removeInk, sealEdits, useStudio } from '../state/index.ts';
import { MeasuredInk } from './Measured.tsx';

const KIND_WORDS: Readonly<Record<(typeof INK_KINDS)[number], string>> = {
  opaque: 'Opaque',
  transparent: 'Transparent',
  pearlescent: 'Pearlescent',
  glow: 'Glow in the dark',
  metallic: 'Metallic',
  clear: 'Clear coat',
};

/** How the chosen ink looks and behaves. */
export function InkCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const inkId = useStudio((s) => s.inkId);
  const { inks } = job.faces[face];
  const ink = inks.find((i) => i.id === inkId) ?? inks[0];
  if (!ink) return null;
  const put = (label: string, change: Partial<Ink>) =>
    edit(label, (j) => changeInk(j, face, ink.id, change), `${label} ${ink.id}`);
  const honest = ink.measured ? null : approximationOf(ink.kind);
  const needs = (veneer: string) => ink.needsBase === 'all' || ink.needsBase.includes(veneer);
  const toggleNeed = (veneer: string) => {
    const now = job.veneers.map((v) => v.id).filter((v) => (v === veneer ? !needs(v) : needs(v)));
    put('Change base', { needsBase: now.length === job.veneers.length ? 'all' : now });
  };
  const merge = (into: string) => {
    const name = inks.find((i) => i.id === into)?.name;
    if (into === ink.id || name === undefined) return;
    edit(`Merge ${ink.name} into ${name}`, (j) => onFace(j, face, (f) => mergeInks(f, ink.id, into)));
    useStudio.setState({ inkId: into, aloneId: null });
  };
  return (
    <Card
      title={`Pull ${inks.indexOf(ink) + 1}: ${ink.name}`}
      action={
        <button
          type="button"
          className="tape-button"
          onClick={() => {
            edit(`Remove ${ink.name}`, (j) => removeInk(j, face, ink.id));
            useStudio.setState({ inkId: null, aloneId: null });
          }}
        >
          Remove
        </button>
      }
    >
      <div className="swatch-field swatch-large">
        <input
          type="color"
          aria-label={`Colour of ${ink.name}`}
          value={ink.hex}
          onChange={(e) => put('Change ink colour', { hex: e.target.value, matches: ink.matches ?? ink.hex })}
          onBlur={sealEdits}
        />
        <span className="field">
          <label htmlFor="ink-name">Name</label>
          <input
            id="ink-name"
            value={ink.name}
            maxLength={120}
            onChange={(e) => e.target.value.trim() && put('Rename ink', { name: e.target.value })}
            onBlur={sealEdits}
          />
          <small>{ink.hex}</small>
        </span>
      </div>
      <div className="swatch-field">
        <input
          id="ink-matches"
          type="color"
          value={ink.matches ?? ink.hex}
          onChange={(e) => put('Change colour taken from the art', { matches: e.target.value })}
          onBlur={sealEdits}
        />
        <label htmlFor="ink-matches">Prints what is {ink.matches ?? ink.hex} in the art</label>
      </div>
      <Toggle
        label="Protect this ink"
        hint="Suggested inks do not replace it, and none of its specks is dropped"
        on={ink.kept === true}
        onChange={(kept) => put(kept ? 'Protect ink' : 'Unprotect ink', { kept })}
      />
      <Share
        label="Hides what is under it"
        value={ink.opacity}
        onChange={(opacity) => put('Change opacity', { opacity, measured: undefined })}
      />
      {honest && <p className="hint">Shown as an approximation: {honest}</p>}
      <MeasuredInk ink={ink} put={put} />
      <div className="pair">
        <Pick
          label="Kind"
          value={ink.kind}
          options={INK_KINDS.map((k) => ({ value: k, label: KIND_WORDS[k] }))}
          onChange={(kind) => put('Change kind of ink', { kind })}
        />
        <NumberBox
          label="Mesh"
          value={ink.meshPerCm}
          unit="/cm"
          min={5}
          max={250}
          onChange={(meshPerCm) => put('Change mesh', { meshPerCm })}
        />
      </div>
      <LengthField
        label="Spreads past its stencil by"
        value={ink.gain ?? 0}
        min={0}
        max={2}
        step={0.01}
        onChange={(gain) => put('Change spread of ink', { gain })}
      />
      <p className="hint">
        On the wood, ink runs a little wider than its stencil and closes fine bare gaps. Measure a gap on the
        film and on a test print: half of the difference goes here. The film then holds bare gaps open by that
        much; thin lines and edges against other inks stay. 0 leaves the film as it is.
      </p>
      <Choice
        label="Prints"
        value={ink.role}
        options={[
          { value: 'colour', label: 'Its own art' },
          {
            value: 'base',
            label: 'Also under others',
            hint: 'The base: under every ink that needs it, choked so that it never peeks out',
          },
        ]}
        onChange={(role) => put('Change what it prints', { role })}
      />
      {ink.role === 'colour' && (
        <fieldset className="needs">
          <legend>Needs the base on</legend>
          {job.veneers.map((v) => (
            <Toggle key={v.id} label={v.name} on={needs(v.id)} onChange={() => toggleNeed(v.id)} />
          ))}
        </fieldset>
      )}
      {inks.length > 1 && (
        <Pick
          label="Merge it into another ink: one screen less"
          value={ink.id}
          options={inks.map((i) => ({ value: i.id, label: i.id === ink.id ? 'Keep it apart' : i.name }))}
          onChange={merge}
        />
      )}
    </Card>
  );
}
