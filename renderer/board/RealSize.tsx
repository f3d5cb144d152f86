import { useState } from 'react';
import { Button, Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { setBench } from '../acts/index.ts';
import { Choice } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';
import { CARD_MM, cssPxPerMm, GUESS_PX_PER_MM, RULER_MM, screenPxPerMm } from './screenSize.ts';

const ratio = () => window.devicePixelRatio || 1;

/** How large the deck is shown: against the wood where the screen's own size is known. */
export function zoomWords(scale: number, known: number | undefined): string {
  if (known === undefined) return `${(scale * 10).toFixed(1)} px/cm`;
  const share = scale / cssPxPerMm(known, ratio());
  return Math.abs(share - 1) < 0.002 ? 'Real size' : `${Math.round(share * 100)} % of real size`;
}

/** Shows the deck as large as it is. The first time, the screen is held against a bank card or a ruler. */
export function RealSize() {
  const known = useStudio((s) => s.shop.bench?.screenPxPerMm);
  const scale = useStudio((s) => s.view.scale);
  const [open, setOpen] = useState(false);
  const show = (pxPerMm: number) => {
    const { view } = useStudio.getState();
    useStudio.setState({ fitted: false, view: { ...view, scale: cssPxPerMm(pxPerMm, ratio()) } });
  };
  const real = known !== undefined && Math.abs(scale / cssPxPerMm(known, ratio()) - 1) < 0.002;
  return (
    <>
      <button
        type="button"
        aria-pressed={real}
        aria-label="1:1, real size"
        title={
          real
            ? 'This is real size; press again to measure the screen anew'
            : 'Show the deck at its real size'
        }
        onClick={() => (known === undefined || real ? setOpen(true) : show(known))}
      >
        1:1
      </button>
      <ModalOverlay isOpen={open} onOpenChange={setOpen} isDismissable className="veil">
        <Modal className="real-size">
          <Dialog>
            <Measuring
              from={known === undefined ? GUESS_PX_PER_MM : cssPxPerMm(known, ratio())}
              close={() => setOpen(false)}
              done={(px) => {
                const own = screenPxPerMm(px, 1, ratio());
                void setBench(() => ({ screenPxPerMm: own }));
                setOpen(false);
                show(own);
              }}
            />
          </Dialog>
        </Modal>
      </ModalOverlay>
    </>
  );
}

function Measuring({
  from,
  close,
  done,
}: {
  readonly from: number;
  readonly close: () => void;
  /** CSS pixels a millimetre. */
  readonly done: (pxPerMm: number) => void;
}) {
  const [by, setBy] = useState<'card' | 'ruler'>('card');
  const [px, setPx] = useState(from);
  const { width, height, radius } = CARD_MM;
  return (
    <>
      <Heading slot="title">How large is this screen?</Heading>
      <p>
        {by === 'card'
          ? 'Lay a bank card on the screen, its left and upper edges on the drawn ones, and move the slider until the drawn card is just as wide.'
          : `Hold a ruler against the line and move the slider until the line measures just ${RULER_MM} mm.`}
      </p>
      <Choice
        label="Measure with"
        value={by}
        options={[
          { value: 'card', label: 'a bank card' },
          { value: 'ruler', label: 'a ruler' },
        ]}
        onChange={setBy}
      />
      <div className="real-size-stage">
        {by === 'card' ? (
          <div
            className="bank-card"
            style={{ width: width * px, height: height * px, borderRadius: radius * px }}
          >
            <span>85.6 mm</span>
          </div>
        ) : (
          <div className="ruler-line" style={{ width: RULER_MM * px }}>
            <span>{RULER_MM} mm</span>
          </div>
        )}
      </div>
      <label className="real-size-slider">
        <span>Size</span>
        <input
          type="range"
          min={1.5}
          max={12}
          step={0.01}
          value={px}
          aria-valuetext={`${(px * (by === 'card' ? width : RULER_MM)).toFixed(0)} pixels wide`}
          onChange={(e) => setPx(Number(e.target.value))}
        />
      </label>
      <p className="hint">
        Remembered on this machine. Another screen, or another resolution, needs to be measured again: press
        1:1 twice.
      </p>
      <div className="button-row">
        <button type="button" className="button-main" onClick={() => done(px)}>
          It fits
        </button>
        <Button onPress={close}>Leave it</Button>
      </div>
    </>
  );
}
