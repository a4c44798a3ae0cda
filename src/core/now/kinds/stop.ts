import { findingReason } from '../../steps/reasons.ts';
import { logged } from '../command.ts';
import type { Now } from '../now.ts';
import type { NowGround } from '../now-ground.ts';

/** A danger that nobody has acknowledged. */
export const stop = ({ dangers, findings }: NowGround): Now | null => {
  const danger = dangers.find(({ acknowledged }) => !acknowledged);
  if (!danger) return null;
  const { id, title, forbids, cautions } = danger;
  const finding = findings.find((one) => one.id === danger.finding);
  return {
    kind: 'stop',
    id,
    title: { kind: 'danger', danger: id, title, forbids },
    because: finding ? [findingReason(finding)] : [{ kind: 'stated', what: id }],
    minutes: 0,
    elapsed: 0,
    cautions,
    command: logged('noted', 'stop'),
    instead: [],
    for: 'technician',
  };
};
