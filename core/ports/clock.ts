/** Milliseconds since the epoch. Only the shell knows the time; documents and films never hold it. */
export type Clock = () => number;
