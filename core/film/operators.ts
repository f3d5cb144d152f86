import type { Shape } from './shape.ts';

/** mm to PDF points. */
export const PT = 72 / 25.4;

/** A number as PDF writes it: no exponent, no trailing zeros, four places (35 nm; a point of 1200 dpi has 21 µm). */
export const num = (value: number): string => `${Math.round(value * 1e4) / 1e4}`;

/** Shapes in page mm as drawing operators, stroked and filled in the current colour. */
export function drawShapes(shapes: readonly Shape[]): string {
  const out: string[] = ['1 J 1 j'];
  let width = -1;
  for (const shape of shapes) {
    if (shape.points.length === 0) continue;
    if (shape.kind === 'line' && shape.width !== width) {
      width = shape.width;
      out.push(`${num(width * PT)} w`);
    }
    let path = '';
    for (const [x, y] of shape.points) path += `${num(x * PT)} ${num(y * PT)} ${path === '' ? 'm' : 'l'} `;
    out.push(path + (shape.kind === 'line' ? 'S' : 'f'));
  }
  return out.join('\n');
}

/** ASCII to bytes; content streams hold nothing else. */
export function ascii(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}
