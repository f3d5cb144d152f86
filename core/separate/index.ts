export type { Coverage } from './coverage.ts';
