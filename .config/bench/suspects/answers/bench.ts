import type { Axle, Corner } from '../../../../src/core/corner.ts';
import type { Draw } from '../model/draw.ts';
import type { Member } from '../model/member.ts';
import type { Visit } from '../sheet/shot.ts';

/** A technician at a vehicle: what is true of it, the instruments, and luck where a search may miss. */
export interface Bench {
  readonly member: Member;
  readonly visit: Visit;
  readonly luck: Draw;
}

/** Where a test is done; both are the first fitted ones for a test of the whole vehicle. */
export interface Spot {
  readonly corner: Corner;
  readonly axle: Axle;
}

/** What a test finds, by the name of its outcome. The limits are those of common practice, no source. */
export type Answer = (bench: Bench, spot: Spot) => string;
export type Answers = Readonly<Record<string, Answer>>;

/** A voltage as the meter shows it. */
export const volts = ({ visit }: Bench, value: number): number => visit.by.see('meter', value);

export const isOff = (value: number, low: number, high: number): boolean => value < low || value > high;
