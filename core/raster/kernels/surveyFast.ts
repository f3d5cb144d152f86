import { type Mask, signedWords } from '../mask.ts';
import { type Kernels, Scratch } from './load.ts';
import { emptySurvey, type InkSurvey } from './surveyPlain.ts';

/** Bytes of rows that a band aims at. */
const BAND = 1 << 17;

/** The compiled twin of `surveyPlain`: once down the mask, and up again until every column's last ink is met. */
export function surveyFast(kernels: Kernels, mask: Mask, step: number): InkSurvey {
  const { width, height, stride } = mask;
  const survey = emptySurvey(mask);
  const words = signedWords(mask);
  const pitch = stride * 4;
  const bandRows = Math.max(1, Math.floor(BAND / pitch));
  const levels = 32 - Math.clz32(Math.ceil(height / step));
  const scratch = new Scratch();
  const inputAt = scratch.take(Math.min(bandRows, height) * pitch);
  const seenAt = scratch.take(pitch);
  const againAt = scratch.take(pitch);
  const digitsAt = scratch.take(levels * pitch);
  const [rowsAt, leftAt, rightAt] = [1, 2, 3].map(() => scratch.take(4 * height)) as [number, number, number];
  // Columns to the end of the stride: bits beyond the width are never set, and so never written.
  const [topAt, bottomAt] = [scratch.take(4 * width), scratch.take(4 * width)];
  const columnsAt = scratch.take(32 * pitch);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  const put = (at: number, values: Int32Array) => memory.set(values, at >> 2);
  memory.fill(0, seenAt >> 2, (digitsAt + levels * pitch) >> 2);
  put(rowsAt, survey.rows);
  put(leftAt, survey.left);
  put(rightAt, survey.right);
  put(topAt, survey.top);
  put(bottomAt, survey.bottom);
  const band = (y: number) => {
    const rows = Math.min(bandRows, height - y);
    memory.set(words.subarray(y * stride, (y + rows) * stride), inputAt >> 2);
    return rows;
  };
  let last = 0;
  for (let y = 0; y < height; y += bandRows) {
    last = y;
    kernels.surveyRows(inputAt, pitch, y, band(y), rowsAt, leftAt, rightAt, topAt, seenAt, step, digitsAt);
  }
  for (let y = last; y >= 0; y -= bandRows)
    if (kernels.surveyUp(inputAt, pitch, y, band(y), bottomAt, againAt, seenAt) === 0) break;
  const take = (at: number, values: Int32Array) =>
    values.set(memory.subarray(at >> 2, (at >> 2) + values.length));
  take(rowsAt, survey.rows);
  take(leftAt, survey.left);
  take(rightAt, survey.right);
  take(topAt, survey.top);
  take(bottomAt, survey.bottom);
  kernels.columnCounts(digitsAt, pitch, levels, step, columnsAt);
  take(columnsAt, survey.columns);
  return survey;
}
