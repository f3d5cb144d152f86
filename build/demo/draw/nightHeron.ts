import { writeFileSync } from 'node:fs';
import { Canvas } from './canvas.ts';
import { drawHarbour } from './harbour.ts';
import { drawHeron } from './heron.ts';
import { drawReeds } from './reeds.ts';
import { drawSky } from './sky.ts';
import { drawSwell, drawWater } from './water.ts';

const art = new Canvas(846, 214);
drawSky(art);
drawWater(art);
drawHarbour(art);
drawSwell(art);
drawReeds(art);
drawHeron(art);
writeFileSync(new URL('../night-heron.svg', import.meta.url), art.toSvg('Night Heron'));
