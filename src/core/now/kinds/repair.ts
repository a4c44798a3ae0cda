import { verbs } from '../../job.ts';
import { proofReasons } from '../../loop/fault-reasons.ts';
import type { Fault } from '../../loop/faults.ts';
import type { WorksheetStep } from '../../worksheet-parts.ts';
import { type Command, choose, logged } from '../command.ts';
import type { Now } from '../now.ts';
import { type NowGround, stepNamed } from '../now-ground.ts';
import { decline } from './decide.ts';

/** Texts of what to heed at a component: those of the tests that are done at it, and of its own step. */
const cautionsAt = ({ component }: Fault, { diagnosis, steps }: NowGround): readonly string[] => {
  const own = steps.find(({ id }) => id.endsWith(`/repair.${component}`));
  if (own) return own.cautions;
  const look = diagnosis?.weighed.evidence.probings.find(({ inspects }) => inspects === component);
  return look?.cautions ?? [];
};

/** The entry by which a step sets a component right. */
const settingOf = ({ id }: WorksheetStep, component: string, { prepared }: NowGround): Command => {
  const patterns = prepared.steps.find((step) => step.id === id)?.answeredBy ?? [];
  const own = patterns.find(({ what }) => what?.includes(component));
  const did = verbs.find((verb) => own?.did.includes(verb)) ?? 'adjusted';
  return did === 'adjusted'
    ? logged(did, component)
    : logged(did, component, choose('result', ['passed', 'failed']));
};

/** A fault whose repair is a step of its own: a learn, a configuration, a mode. */
const toSetting = (fault: Fault, step: WorksheetStep, ground: NowGround): Now => ({
  kind: 'repair',
  id: step.id,
  title: { kind: 'given', text: step.title },
  because: proofReasons(fault),
  minutes: step.minutes,
  elapsed: 0,
  cautions: step.cautions,
  command: settingOf(step, fault.component, ground),
  instead: [decline(fault.component)],
  for: 'technician',
});

const bySetting = (fault: Fault, name: string, ground: NowGround): Now | null => {
  const step = stepNamed(name, ground);
  return step && step.state !== 'waiting' ? toSetting(fault, step, ground) : null;
};

/** Whether a step waits only for what a hold point holds up, such as the programming of a module that nobody fitted. */
const isHeldUp = ({ waitsFor }: WorksheetStep, ground: NowGround): boolean =>
  waitsFor.length > 0 &&
  waitsFor.every((id) => {
    const other = ground.steps.find((step) => step.id === id);
    if (other?.state !== 'waiting') return false;
    return other.waitsFor.some((one) => one.startsWith('hold-point/')) || isHeldUp(other, ground);
  });

/** A fault that can be set right all the same, where nothing else can be done before it. */
export const repairHeldUp = (ground: NowGround): Now | null => {
  for (const fault of ground.faults) {
    if (fault.step === null || fault.spent || fault.lacks.length > 0) continue;
    const step = stepNamed(fault.step, ground);
    if (step && isHeldUp(step, ground)) return toSetting(fault, step, ground);
  }
  return null;
};

/** A part is replaced, what is no part is repaired, and the other may do as well. */
const putRight = (isPart: boolean, component: string): Command => ({
  kind: 'log',
  did: isPart ? 'replaced' : 'repaired',
  orDid: [isPart ? 'repaired' : 'replaced'],
  what: component,
  options: [],
});

/** A confirmed fault that can be put right now. */
export const repair = (ground: NowGround): Now | null => {
  for (const fault of ground.faults) {
    if (fault.lacks.length > 0 || fault.spent) continue;
    const { component, title, isPart, minutes, step } = fault;
    const own = ground.steps.find(({ id }) => id.endsWith(`/repair.${component}`));
    if (own?.state === 'waiting') continue;
    const set = step === null ? null : bySetting(fault, step, ground);
    if (set) return set;
    if (step !== null) continue;
    return {
      kind: 'repair',
      id: `repair.${component}`,
      title: { kind: 'repair', part: title, isPart },
      because: proofReasons(fault),
      minutes,
      elapsed: 0,
      cautions: cautionsAt(fault, ground),
      command: putRight(isPart, component),
      instead: [decline(component)],
      for: 'technician',
    };
  }
  return null;
};
