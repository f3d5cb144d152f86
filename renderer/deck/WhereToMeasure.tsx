import { Dimension } from './drawing.tsx';
import './sections.css';

const HOLES = [112, 130, 290, 308].flatMap((x) => [48, 72].map((y) => [x, y] as const));

/** Where a rule goes on the wood for each of the measures. */
export function WhereToMeasure() {
  return (
    <svg
      className="drawing"
      viewBox="0 14 436 132"
      role="img"
      aria-label="Where to measure: width across the rails; wheelbase between the inner truck holes; nose and tail from the outer holes to the tip"
    >
      <path className="wood" d="M62 22h296c34 0 52 18 52 38s-18 38-52 38H62C28 98 10 80 10 60s18-38 52-38z" />
      {HOLES.map(([x, y]) => (
        <circle key={`${x} ${y}`} cx={x} cy={y} r="3.2" className="deck-hole" />
      ))}
      <path
        className="help-line"
        d="M10 60V126M112 48V126M130 48V126M290 48V126M308 48V126M410 60V126M320 22H428M320 98H428"
      />
      <Dimension from={[10, 120]} to={[112, 120]} text="tail" size={15} side={0.5} />
      <Dimension from={[130, 120]} to={[290, 120]} text="wheelbase" size={15} side={0.5} />
      <Dimension from={[308, 120]} to={[410, 120]} text="nose" size={15} side={0.5} />
      <Dimension from={[424, 22]} to={[424, 98]} text="" size={15} />
      <text x={398} y={64} fontSize={15} textAnchor="end" className="on-wood">
        width
      </text>
    </svg>
  );
}
