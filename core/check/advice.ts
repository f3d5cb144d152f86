/** Something that a veneer or a colourway asks of the pulls, though the films stay the same. */
export interface RunAdvice {
  /** Ink id. */
  readonly ink: string;
  /** Ids of the veneers it is about; none: of every veneer. */
  readonly veneers: readonly string[];
  /** An ink's own colour, and how it would look at worst and on which veneer. */
  readonly looks?: {
    readonly own: string;
    readonly there: string;
    readonly on: string;
  };
  readonly what: string;
  readonly mend: string;
}
