/** A pack as a file names it (`id@range`), with its place in the text. */
export interface PackRef {
  readonly ref: string;
  readonly at: number;
}
