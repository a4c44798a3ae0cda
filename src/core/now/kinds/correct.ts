import type { Finding } from '../../finding.ts';
import type { Snapshot, State } from '../../job.ts';
import { findingReason } from '../../steps/reasons.ts';
import { forAndAgainst } from '../../suspects/ledger.ts';
import { logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import { mayBe, type NowGround } from '../now-ground.ts';
import { addCommand, toRead } from '../reading.ts';
import { keysOfAsk, openAsks, timesTaken } from './read.ts';

const again = (
  id: string,
  state: State,
  readings: readonly string[],
  ground: NowGround,
  findings: readonly Finding[],
  meter: string | null,
): Now => ({
  ...toRead(
    'correct',
    id,
    { state, readings, lamp: false, codes: false, conditions: [] },
    findings.map(findingReason),
    ground,
  ),
  title: { kind: 'read-again', what: readings.join(', '), with: meter },
});

const isReadAgain = (channel: string, { stamp, state }: Snapshot, { job }: NowGround): boolean =>
  job.snapshots.some(
    (one) => one.state === state && one.stamp.at > stamp.at && one.readings.get(channel)?.kind === 'values',
  );

/** A reading that cannot be: a decimal point or a unit slipped. Read once more and still so, it is believed. */
const slipped = (ground: NowGround): Now | null => {
  for (const { missing, waived } of ground.findings) {
    if (missing?.why !== 'unbelievable' || waived !== null) continue;
    const { channel, read, meant } = missing;
    const snapshot = ground.job.snapshots.find(({ id }) => id === missing.snapshot);
    // A newer reading stands in its place, though what is worked out over time still has it.
    if (!snapshot || isReadAgain(channel, snapshot, ground)) continue;
    const session = {
      state: snapshot.state,
      readings: [channel],
      lamp: false,
      codes: false,
      conditions: [],
    };
    return {
      ...toRead(
        'correct',
        `readings/${snapshot.state}`,
        session,
        [],
        ground,
        mayBe(snapshot.state, ground) ? [addCommand(session)] : [],
      ),
      title: { kind: 'cannot-be', what: channel, snapshot: snapshot.id, read, meant },
      command: { kind: 'fix', snapshot: snapshot.id, conditions: [{ name: channel, wants: [] }] },
    };
  }
  return null;
};

/** A danger that one reading alone shows: it may be a slip, or the vehicle is another than the file says. */
const once = (ground: NowGround): Now | null => {
  const { findings, prepared, dangers } = ground;
  const finding = findings.find(
    ({ check, subject, verdict, current, waived }) =>
      verdict === 'out' &&
      current &&
      waived === null &&
      prepared.dangers.get(check)?.afterRetake === true &&
      !dangers.some(({ id }) => id === `${check}:${subject}`),
  );
  if (!finding?.state || !mayBe(finding.state, ground)) return null;
  return {
    ...again(`${finding.check}:${finding.subject}`, finding.state, finding.channels, ground, [finding], null),
    instead: [{ kind: 'edit', at: 'vehicle: system' }],
  };
};

/** Readings that say together what cannot be, and that were taken once. */
const excluding = (ground: NowGround): Now | null => {
  const open = openAsks('again', ground).find(({ ask }) => timesTaken(ask, ground) === 1);
  if (!open) return null;
  const { ask, because } = open;
  return {
    ...again(ask.id, ask.state, keysOfAsk(ask, ground), ground, [], null),
    title: { kind: 'given', text: ask.title },
    because,
    instead: [logged('skipped', ask.id, say('reason'))],
  };
};

/** An instrument that leads the suspects: what it read is read again with another one. */
const instrument = (ground: NowGround): Now | null => {
  const { diagnosis, findings } = ground;
  if (!diagnosis?.advice?.met) return null;
  const { weighed } = diagnosis;
  const [leader = 0] = weighed.order;
  const { hypotheses } = weighed.model;
  const one = hypotheses[leader];
  if (!one?.suspect || one.suspect.repaired) return null;
  const ids = forAndAgainst(leader, hypotheses, weighed.rows).for;
  const speaking = findings.filter(
    ({ id, verdict, current }) => verdict === 'out' && current && ids.includes(id),
  );
  const [first] = speaking;
  if (!first?.state || !mayBe(first.state, ground)) return null;
  const channels = [
    ...new Set(
      speaking.filter(({ state }) => state === first.state).flatMap((finding) => [...finding.channels]),
    ),
  ];
  // Read twice, it is not the instrument's slip that shows; somebody has to decide.
  const times = ground.job.snapshots.filter(({ readings }) =>
    channels.every((key) => readings.has(key)),
  ).length;
  if (one.suspect.confirm.length === 0 && times > 1) return null;
  return again(one.id, first.state, channels, ground, speaking, one.title);
};

/** An entry that its hold point did not allow: it says why, or it is taken out. */
const against = ({ findings }: NowGround): Now | null => {
  const finding = findings.find(
    ({ kind, verdict, waived }) => kind === 'kept-hold-points' && verdict === 'out' && waived === null,
  );
  if (!finding) return null;
  const { check, subject } = finding;
  const [did, what] = subject.split(' ');
  return {
    kind: 'correct',
    id: `${check}:${subject}`,
    title: { kind: 'despite', entry: subject },
    because: [findingReason(finding)],
    minutes: 0,
    elapsed: 0,
    cautions: [],
    command: { kind: 'edit', at: `log: add despite: and by: to ${subject}` },
    instead: [
      ...(did === 'ordered' && what !== undefined ? [logged('declined', what, say('by'))] : []),
      { kind: 'waive', finding: `${check}:${subject}` },
    ],
    for: 'desk',
  };
};

/** The file or a reading cannot be right. */
export const correct = (ground: NowGround): Now | null =>
  slipped(ground) ?? once(ground) ?? excluding(ground) ?? instrument(ground) ?? against(ground);
