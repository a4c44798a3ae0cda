import type { Layout } from '../../job.ts';
import { concern, type Hypothesis } from '../hypotheses.ts';
import { connectedSets, isBlurred } from './alike.ts';
import { type Bench, sampleAxle, sampleCorner } from './bench.ts';
import { overlapIn } from './overlap.ts';
import { type Split, splittingOf } from './splitting.ts';

/** A suspect as a member of a group. */
export interface Member {
  readonly id: string;
  readonly title: string;
  readonly perCorner: boolean;
}

/** Suspects that readings alone cannot tell apart. */
export interface Blur {
  /** Layouts on which it is so. */
  readonly layouts: readonly Layout[];
  /** `parts`: several, those of a corner at one and the same; `corner`: one, whose corner stays open. */
  readonly what: 'parts' | 'corner';
  readonly members: readonly Member[];
  /** Tests that split it, in the order of doing them. */
  readonly splits: readonly Split[];
  /** What no test of the pack splits; ids of suspects, with their corner where the corner stays open. */
  readonly left: readonly (readonly string[])[];
}

/** The groups of one layout. One corner stands for all, and beside that each part's corners for themselves. */
export const blursOn = (bench: Bench): Blur[] => {
  const { hypotheses, layout } = bench;
  const readings = bench.groups.map(({ table }) => table);
  const places = hypotheses.map((_, place) => place);
  const of = (keep: (one: Hypothesis) => boolean): number[] =>
    places.filter((place) => hypotheses[place]?.suspect && keep(hypotheses[place]));
  const grouped = (among: readonly number[]): number[][] =>
    connectedSets(among, (one, other) => isBlurred(overlapIn(readings, one, other))).filter(
      ({ length }) => length > 1,
    );
  const blur = (set: readonly number[], what: Blur['what']): Blur => {
    const corners =
      what === 'parts' ? [sampleCorner, sampleAxle] : set.flatMap((place) => hypotheses[place]?.place ?? []);
    const { tests, left } = splittingOf(set, corners, bench);
    const members = new Map<string, Member>();
    for (const place of set) {
      const suspect = hypotheses[place]?.suspect;
      if (suspect)
        members.set(suspect.id, {
          id: suspect.id,
          title: suspect.title,
          perCorner: suspect.per === 'corner',
        });
    }
    const name = (place: number): string =>
      (what === 'parts' ? hypotheses[place]?.suspect?.id : hypotheses[place]?.id) ?? '';
    return {
      layouts: [layout],
      what,
      members: [...members.values()],
      splits: tests,
      left: left.map((part) => part.map(name)),
    };
  };
  const cornered = [
    ...new Set(hypotheses.flatMap(({ suspect }) => (suspect?.per === 'corner' ? [suspect] : []))),
  ];
  return [
    ...grouped(of(({ place }) => concern(place, sampleCorner))).map((set) => blur(set, 'parts')),
    ...cornered.flatMap((own) =>
      grouped(of(({ suspect }) => suspect === own)).map((set) => blur(set, 'corner')),
    ),
  ];
};

const sameBut = ({ what, members, splits, left }: Blur): string =>
  JSON.stringify([what, members.map(({ id }) => id), splits.map(({ id }) => id), left]);

/** The groups of all layouts; those that are the same on several are one. */
export const blursOf = (benches: readonly Bench[]): Blur[] => {
  const found = new Map<string, Blur>();
  for (const blur of benches.flatMap(blursOn)) {
    const key = sameBut(blur);
    const first = found.get(key);
    found.set(key, first ? { ...first, layouts: [...first.layouts, ...blur.layouts] } : blur);
  }
  return [...found.values()];
};
