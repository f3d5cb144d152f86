import { timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** Headers on every answer: nothing may be loaded, framed, guessed at or kept. Isolation gives the page shared memory. */
export const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': [
    "default-src 'none'",
    "script-src 'self' 'wasm-unsafe-eval'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' blob: data:",
    "font-src 'self' data:",
    "connect-src 'self'",
    "worker-src 'self' blob:",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), usb=(), serial=()',
  'Cache-Control': 'no-store',
};

/** The header that carries the launch's token; a page from elsewhere could not add it without asking first. */
export const TOKEN_HEADER = 'x-kickflat-token';

export interface Refused {
  readonly status: number;
  readonly why: string;
}

/**
 * Whether a request may be looked at at all. The Host must be this very address, so that a name that someone points at the
 * loopback address (DNS rebinding) is refused; an Origin, where a browser sends one, must be this page's.
 */
export function refuse(request: IncomingMessage, port: number): Refused | null {
  const hosts = [`127.0.0.1:${port}`, `localhost:${port}`];
  const { host, origin } = request.headers;
  if (host === undefined || !hosts.includes(host))
    return { status: 421, why: 'This is not the address of the studio.' };
  if (origin !== undefined && origin !== `http://${host}`)
    return { status: 403, why: 'The studio answers only its own page.' };
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none')
    return { status: 403, why: 'The studio answers only its own page.' };
  return null;
}

/** Whether the request knows the launch's token; compared in constant time. */
export function knowsToken(request: IncomingMessage, token: string): boolean {
  const sent = request.headers[TOKEN_HEADER];
  if (typeof sent !== 'string') return false;
  const a = Buffer.from(sent);
  const b = Buffer.from(token);
  return a.length === b.length && timingSafeEqual(a, b);
}
