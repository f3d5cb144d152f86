import type { Shape } from './shape.ts';

/** mm to PDF points. */
export const PT = 72 / 25.4;

/** A number as PDF writes it: no exponent, no trailing zeros, six places (a nanometre). */
export function num(value: number): string {
  const text = value.toFixed(6);
  const trimmed = text.replace(/\.?0+$/, '');
  return trimmed === '-0' || trimmed === '' ? '0' : trimmed;
}

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
    const path = shape.points.map(([x, y], i) => `${num(x * PT)} ${num(y * PT)} ${i === 0 ? 'm' : 'l'}`);
    out.push(`${path.join(' ')} ${shape.kind === 'line' ? 'S' : 'f'}`);
  }
  return out.join('\n');
}

/** ASCII to bytes; content streams hold nothing else. */
export function ascii(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}
