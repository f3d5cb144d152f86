import {
  measureOutside,
  nameOf,
  type OutsideMeasured,
  outsideMeans,
  outsideTable,
  TARGET,
} from '../reference/separation/measureOutside.ts';
import { outsideArt } from '../reference/separation/outsideArt.ts';

/** 40 mm a side at 300 dpi, and a third of it: there most of the detail is finer than a mesh holds. */
const SIZES = [480, 160] as const;

/** Prints the measures of all the flat art by others; ends with status 1 where a piece of full size misses a target. */
const all = outsideArt();
let missed = 0;
for (const px of SIZES) {
  const rows: OutsideMeasured[] = [];
  for (const piece of all) rows.push(await measureOutside({ ...piece, name: nameOf(piece) }, px));
  console.log(outsideTable(rows));
  const { displacement, jpeg } = outsideMeans(rows);
  const worst = (of: (row: OutsideMeasured) => number) => Math.max(...rows.map(of));
  const sum = (of: (row: OutsideMeasured) => number) => rows.reduce((n, row) => n + of(row), 0);
  const percent = (share: number) => `${(100 * share).toFixed(4)} %`;
  console.log(
    `\n${rows.length} pieces, ${px} points a side: false ink ${sum((r) => r.soft.falseInk)} points, edges off ${displacement.toFixed(3)} (worst ${worst((r) => r.soft.displacement).toFixed(3)}) film points, broken ${sum((r) => r.broken)} points, JPEG 75 ${percent(jpeg[0]!)} (worst ${percent(worst((r) => r.jpeg[0]!.falseShare))}), JPEG 60 ${percent(jpeg[1]!)} (worst ${percent(worst((r) => r.jpeg[1]!.falseShare))})\n`,
  );
  if (px === SIZES[0])
    missed = rows.filter(
      ({ soft, broken, jpeg: through }) =>
        soft.falseInk > 0 ||
        soft.displacement > TARGET.displacement ||
        broken > 0 ||
        through[0]!.falseShare > TARGET.jpeg75,
    ).length;
}
if (missed > 0) {
  console.error(`${missed} pieces miss a target.`);
  process.exitCode = 1;
}
