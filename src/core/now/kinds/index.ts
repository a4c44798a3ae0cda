import type { Now, NowKind } from '../now.ts';
import type { NowGround } from '../now-ground.ts';
import { authorise } from './authorise.ts';
import { correct } from './correct.ts';
import { decide } from './decide.ts';
import { handOver } from './hand-over.ts';
import { none } from './none.ts';
import { order } from './order.ts';
import { read, readTheRest } from './read.ts';
import { repair } from './repair.ts';
import { retest } from './retest.ts';
import { step } from './step.ts';
import { stop } from './stop.ts';
import { test } from './test.ts';
import { wait } from './wait.ts';

/** One kind of thing to do: what it asks for, or null where it does not apply. */
export interface KindOfNow {
  readonly kind: NowKind;
  readonly find: (ground: NowGround) => Now | null;
}

/** Every kind, the first that applies first. */
export const kindsOfNow: readonly KindOfNow[] = [
  { kind: 'stop', find: stop },
  { kind: 'correct', find: correct },
  { kind: 'read', find: read },
  { kind: 'test', find: test },
  { kind: 'read', find: readTheRest },
  { kind: 'decide', find: decide },
  { kind: 'authorise', find: authorise },
  { kind: 'order', find: order },
  { kind: 'wait', find: wait },
  { kind: 'repair', find: repair },
  { kind: 'retest', find: retest },
  { kind: 'step', find: step },
  { kind: 'hand-over', find: handOver },
  { kind: 'none', find: none },
];
