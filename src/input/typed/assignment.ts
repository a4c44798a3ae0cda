/** One `name=value` as typed; a reason is taken as it is, whatever it looks like. */
export interface Assignment {
  readonly name: string;
  readonly typed: string;
  readonly isReason?: boolean;
}
