/** What long work says of itself and how it is stopped; core knows no timers and no DOM signal, only these. */
export interface Abort {
  readonly aborted: boolean;
}
/** In the work's own units: `film 3 of 5, tracing cut 2 of 3`. `done` runs from 0 to 1. */
export type Progress = (done: number, text: string) => void;
