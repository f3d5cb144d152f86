import type { IncomingMessage } from 'node:http';

export class TooLarge extends Error {}

/** A request's body, at most `most` bytes; what says it is larger is refused before it is read. */
export async function readBody(request: IncomingMessage, most: number): Promise<Uint8Array> {
  const stated = Number(request.headers['content-length'] ?? Number.NaN);
  if (stated > most) throw new TooLarge();
  const chunks: Buffer[] = [];
  let size = 0;
  // Left open when it is too large, so that the refusal still reaches the sender.
  for await (const chunk of request.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
    size += chunk.length;
    if (size > most) throw new TooLarge();
    chunks.push(chunk);
  }
  return new Uint8Array(Buffer.concat(chunks));
}
