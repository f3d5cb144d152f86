import { writeFileSync } from 'node:fs';
import { Canvas } from './canvas.ts';
import { drawHarbour } from './harbour.ts';
import { drawHeron } from './heron.ts';
import { drawSky } from './sky.ts';
import { drawWater } from './water.ts';

const art = new Canvas(846, 214);
drawSky(art);
drawWater(art);
drawHarbour(art);
drawHeron(art);
writeFileSync(new URL('../night-heron.svg', import.meta.url), art.toSvg('Night Heron'));
