import { emulsionAmount, USUAL } from '../../core/press/index.ts';
import { pullsOf } from '../../core/runOf.ts';
import { Card, Measure, NumberBox } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';
import { Cautions } from './Cautions.tsx';
import { NamedThing } from './NamedThing.tsx';
import { Worked } from './Worked.tsx';

/** Emulsion for all screens of the run. */
export function EmulsionCard() {
  const job = useStudio((s) => s.job)!;
  const { emulsion } = job.press;
  const known = useStudio((s) => s.shop.emulsions);
  const input = {
    width: job.press.frameWidth,
    length: job.press.frameLength,
    screens: pullsOf(job).length,
    coats: emulsion?.coats ?? USUAL.emulsionCoats.value,
    wetUm: emulsion?.wetUm ?? USUAL.emulsionWetUm.value,
    waste: emulsion?.waste ?? USUAL.emulsionWaste.value,
  };
  const put = (change: Partial<NonNullable<typeof emulsion>>) =>
    edit(
      'Change emulsion',
      (j) => changePress(j, { emulsion: { ...j.press.emulsion, ...change } }),
      `emulsion ${Object.keys(change)}`,
    );
  return (
    <Card title="Emulsion">
      <NamedThing
        label="Emulsion"
        value={emulsion?.name ?? ''}
        known={known}
        onChange={(name) => {
          const one = known.find((e) => e.name === name);
          put({
            name,
            ...(one?.coats === undefined ? {} : { coats: one.coats }),
            ...(one?.wetUm === undefined ? {} : { wetUm: one.wetUm }),
            ...(one?.waste === undefined ? {} : { waste: one.waste }),
          });
        }}
      />
      <div className="fields">
        <NumberBox
          label="Coats a side"
          value={input.coats}
          min={1}
          max={20}
          digits={0}
          onChange={(coats) => put({ coats })}
        />
        <NumberBox
          label="A wet coat"
          value={input.wetUm}
          min={1}
          max={1000}
          unit="µm"
          onChange={(wetUm) => put({ wetUm })}
        />
        <NumberBox
          label="Lost"
          value={input.waste * 100}
          min={0}
          max={2000}
          unit="%"
          onChange={(n) => put({ waste: n / 100 })}
        />
      </div>
      <Worked found={emulsionAmount(input)}>
        {({ ml, mlPerScreen }) => (
          <div className="measures">
            <Measure value={ml.toFixed(0)} unit="ml" label={`for ${input.screens} screens`} />
            <Measure value={mlPerScreen.toFixed(0)} unit="ml" label="a screen" />
          </div>
        )}
      </Worked>
      <Cautions of={['coating']} />
    </Card>
  );
}
