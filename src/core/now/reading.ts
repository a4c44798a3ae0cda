import { type ConditionName, conditionWords } from '../job.ts';
import { parseKey } from '../key.ts';
import type { WantedCondition } from '../wanted/circumstances.ts';
import type { StillToTake } from '../wanted/still-to-take.ts';
import type { Reason } from '../worksheet-parts.ts';
import type { Command, StatedCondition } from './command.ts';
import type { Now, NowKind } from './now.ts';
import type { NowGround } from './now-ground.ts';

/** What to read in one state, and why. */
export interface Session extends Pick<StillToTake, 'state' | 'readings' | 'lamp' | 'codes'> {
  readonly conditions: readonly StatedCondition[];
  /** Readings to take several times. */
  readonly several?: readonly string[];
}

/** Words that a condition may have; none where it is a quantity. */
export const wordsOf = (condition: string): readonly string[] =>
  Object.hasOwn(conditionWords, condition) ? conditionWords[condition as ConditionName] : [];

/** Conditions as a command asks for them. */
export const toState = (conditions: readonly WantedCondition[]): StatedCondition[] =>
  conditions.map(({ name, wants }) => ({ name, wants: wants === null ? [] : [wants] }));

export const addCommand = ({ state, readings, conditions, lamp, codes, several = [] }: Session): Command => ({
  kind: 'add',
  state,
  names: readings,
  several,
  conditions,
  lamp,
  codes,
});

/** How long a session takes, and what to heed. */
const effortOf = (
  { readings, lamp, codes }: Session,
  { prepared: { channelById } }: NowGround,
): { readonly minutes: number; readonly cautions: readonly string[] } => {
  const channels = [...new Set(readings.map((key) => parseKey(key).base))].flatMap(
    (base) => channelById.get(base) ?? [],
  );
  const cautions = [...new Set(channels.flatMap((channel) => [...channel.cautions]))];
  const minutes = readings.reduce((sum, key) => sum + (channelById.get(parseKey(key).base)?.minutes ?? 1), 0);
  return { minutes: minutes + (lamp || codes ? 1 : 0), cautions };
};

/** To read something in one state of the vehicle. */
export const toRead = (
  kind: Extract<NowKind, 'correct' | 'read' | 'retest' | 'step'>,
  id: string,
  session: Session,
  because: readonly Reason[],
  ground: NowGround,
  instead: readonly Command[] = [],
): Now => {
  const { readings, lamp, codes, state, conditions } = session;
  const things = [...readings, ...(lamp ? ['lamp'] : []), ...(codes ? ['codes'] : [])];
  return {
    kind,
    id,
    title: {
      kind: 'read',
      state,
      things: things.length > 0 ? things : conditions.map(({ name }) => name),
    },
    because,
    ...effortOf(session, ground),
    elapsed: 0,
    command: addCommand(session),
    instead,
    for: 'technician',
  };
};
