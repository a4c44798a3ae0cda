import { parseKey } from '../key.ts';
import type { Step } from '../pack.ts';
import { findingReason, loggedReason } from '../steps/reasons.ts';
import type { Reason } from '../worksheet-parts.ts';
import { proofReasons } from './fault-reasons.ts';
import type { Fault } from './faults.ts';
import type { Retest } from './retests.ts';

/** A step that is made for a component, and where it stands. */
export interface LoopStep {
  readonly step: Step;
  readonly done: boolean;
  readonly because: readonly Reason[];
}

/** The step of a pack as it is for one component. */
const madeFor = (template: Step, component: string, title: string, minutes: number): Step => {
  const { base } = parseKey(component);
  const own = template.cautionsFor.filter(({ components }) => components.includes(base));
  return {
    ...template,
    id: `${template.id}.${component}`,
    name: `${template.name}.${component}`,
    title: template.title.replace('{component}', title),
    minutes: minutes > 0 ? minutes : template.minutes,
    cautions: [...new Set([...template.cautions, ...own.flatMap(({ cautions }) => [...cautions])])],
  };
};

/** A repair for every confirmed fault, and the repairs that were done; what a step of its own sets right has none. */
export const repairSteps = (
  template: Step,
  faults: readonly Fault[],
  retests: readonly Retest[],
): LoopStep[] => {
  const open = faults.filter(({ step, spent }) => step === null && !spent);
  return [
    ...open.map((fault) => ({
      step: madeFor(template, fault.component, fault.title, fault.minutes),
      done: false,
      because: proofReasons(fault),
    })),
    ...retests
      .filter(({ component }) => !open.some((fault) => fault.component === component))
      .map(({ component, title, since }) => ({
        step: madeFor(template, component, title, 0),
        done: true,
        because: [loggedReason(since)],
      })),
  ];
};

const retestReasons = ({ tests, readings, unlike, out, since }: Retest): Reason[] => [
  ...tests
    .filter(({ passed }) => !passed)
    .map(({ title, found }): Reason => ({ kind: 'retest-test', title, found })),
  ...readings.map(
    ({ state, channels }): Reason => ({
      kind: 'retest-readings',
      state,
      channels,
      after: `${since.did} ${since.what}`,
    }),
  ),
  ...unlike.map(({ state, conditions }): Reason => ({ kind: 'retest-unlike', state, conditions })),
  ...out.map(findingReason),
];

/** What proves each repair. */
export const retestSteps = (template: Step, retests: readonly Retest[]): LoopStep[] =>
  retests.map((retest) => ({
    step: madeFor(
      template,
      retest.component,
      retest.title,
      template.minutes + retest.tests.reduce((sum, { minutes, passed }) => sum + (passed ? 0 : minutes), 0),
    ),
    done: retest.done,
    because: retest.done ? [loggedReason(retest.since)] : retestReasons(retest),
  }));
