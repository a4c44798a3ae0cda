import type { Kind } from '../kind.ts';
import { agreement } from './agreement.ts';
import { chargingWindow } from './battery/charging-window.ts';
import { cranking } from './battery/cranking.ts';
import { frozenBattery } from './battery/frozen-battery.ts';
import { stateOfCharge } from './battery/state-of-charge.ts';
import { clearedNotTested } from './cleared-not-tested.ts';
import { compressorEffort } from './compressor-effort.ts';
import { conditionWord } from './condition-word.ts';
import { diagonal } from './diagonal.ts';
import { equipment } from './equipment.ts';
import { frontRear } from './front-rear.ts';
import { heightAgreement } from './height-agreement.ts';
import { heightDrop } from './height-drop.ts';
import { heightLoss } from './height-loss.ts';
import { keptHoldPoints } from './kept-hold-points.ts';
import { lamp } from './lamp.ts';
import { leakDown } from './leak-down.ts';
import { leftRight } from './left-right.ts';
import { migration } from './migration.ts';
import { movesTogether } from './moves-together.ts';
import { pairShare } from './pair-share.ts';
import { pattern } from './pattern.ts';
import { pumpUp } from './pump-up.ts';
import { range } from './range.ts';
import { ratio } from './ratio.ts';
import { signalAgainstTape } from './signal-against-tape.ts';
import { steadiness } from './steadiness.ts';
import { storedCodes } from './stored-codes.ts';
import { tankPressure } from './tank-pressure.ts';
import { tapeTarget } from './tape-target.ts';
import { twist } from './twist.ts';
import { tyreDifference } from './tyre-difference.ts';

/** Every kind of check. A new one is a file beside these and a line here; a test holds the list complete. */
export const kinds: readonly Kind[] = [
  range,
  agreement,
  ratio,
  leftRight,
  frontRear,
  diagonal,
  heightAgreement,
  twist,
  pattern,
  pairShare,
  steadiness,
  stateOfCharge,
  chargingWindow,
  cranking,
  pumpUp,
  leakDown,
  heightDrop,
  storedCodes,
  lamp,
  clearedNotTested,
  equipment,
  compressorEffort,
  conditionWord,
  frozenBattery,
  heightLoss,
  keptHoldPoints,
  migration,
  movesTogether,
  signalAgainstTape,
  tankPressure,
  tapeTarget,
  tyreDifference,
];

const byName: ReadonlyMap<string, Kind> = new Map(kinds.map((kind) => [kind.kind, kind]));

/** The kind of a check; one that does not exist is a bug, since packs are checked when they are read. */
export const kindOf = ({ kind }: { readonly kind: string }): Kind => {
  const found = byName.get(kind);
  if (!found) throw new Error(`there is no kind of check ${kind}`);
  return found;
};
