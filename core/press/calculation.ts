/** What a calculator found, by which formula, and what it took for granted. Numbers are unrounded. */
export interface Calculation<Result> {
  readonly result: Result;
  readonly formula: string;
  readonly assumptions: readonly string[];
}
