import type { RefObject } from 'react';
import { Icon } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';

/** Turns the board over about its length: nose stays nose. */
export function FaceSwitch({ frame }: { frame: RefObject<HTMLDivElement | null> }) {
  const face = useStudio((s) => s.face);
  const turn = () => {
    const to = face === 'bottom' ? 'top' : 'bottom';
    const swap = () =>
      useStudio.setState({
        face: to,
        selection: [],
        inkId: null,
        aloneId: null,
        filmPlan: null,
        pointer: null,
      });
    const still = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    if (still || !frame.current) return swap();
    const half = (from: number, deg: number) =>
      frame.current!.animate(
        [
          { transform: `perspective(1800px) rotateX(${from}deg)` },
          { transform: `perspective(1800px) rotateX(${deg}deg)` },
        ],
        {
          duration: 150,
          easing: from === 0 ? 'ease-in' : 'ease-out',
        },
      );
    half(0, 90).onfinish = () => {
      swap();
      half(-90, 0);
    };
  };
  return (
    <button
      type="button"
      className="face-switch"
      onClick={turn}
      aria-label={`${face === 'bottom' ? 'Bottom' : 'Top'} turn over: the ${face} face is shown; turns the board over`}
    >
      <span className="face-name">{face === 'bottom' ? 'Bottom' : 'Top'}</span>
      <span className="face-turn">
        <Icon name="turn" /> turn over
      </span>
    </button>
  );
}
