/** Where a rule goes on the wood for each of the measures. */
export function WhereToMeasure() {
  return (
    <svg
      className="section"
      viewBox="0 0 420 132"
      role="img"
      aria-label="Where to measure: width across the rails; wheelbase between the inner truck holes; nose and tail from the outer holes to the tip"
    >
      <path
        className="deck-wood"
        d="M62 22h296c34 0 52 18 52 38s-18 38-52 38H62C28 98 10 80 10 60s18-38 52-38z"
      />
      {[112, 130, 290, 308].flatMap((x) =>
        [48, 72].map((y) => <circle key={`${x} ${y}`} cx={x} cy={y} r="3.2" className="deck-hole" />),
      )}
      <path className="section-measure" d="M130 60h160M308 60h102M112 60H10M210 22v76" />
      <text x="144" y="55" className="section-text">
        wheelbase
      </text>
      <text x="336" y="55" className="section-text">
        nose
      </text>
      <text x="52" y="55" className="section-text">
        tail
      </text>
      <text x="216" y="92" className="section-text">
        width
      </text>
      <text x="10" y="124" className="section-text">
        measured straight down from above, not along the bend
      </text>
    </svg>
  );
}
