import type { Path } from '../flaw.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import { parseQuantity } from '../readings/parse-quantity.ts';
import type { UnitName } from '../readings/units.ts';
import type { KindScope } from './kind.ts';

/** Reads one quantity parameter into `unit`; a fault is reported and NaN stands in, so that reading goes on. */
export const readQuantity = (raw: unknown, unit: UnitName, path: Path, scope: KindScope): number => {
  const parsed = parseQuantity(String(raw), unit);
  if (parsed.ok) return parsed.value.value;
  scope.flaw({ code: parsed.fault.code, path, message: parsed.fault.message, hint: parsed.fault.hint });
  return Number.NaN;
};

/** Finds a channel that a parameter names; an unknown one is reported and null given. */
export const readChannel = (raw: unknown, path: Path, scope: KindScope): Channel | null => {
  const name = String(raw);
  const channel = scope.channels.get(parseKey(name).base);
  if (channel) return channel;
  scope.flaw({
    code: 'unknown-channel',
    path,
    message: `this pack declares no channel ${name}`,
    hint: 'declare it under channels',
    typed: { word: name, known: [...scope.channels.keys()] },
  });
  return null;
};

export const readChannels = (raw: unknown, path: Path, scope: KindScope): Channel[] => {
  const names = Array.isArray(raw) ? raw : [raw];
  return names
    .map((name, index) => readChannel(name, Array.isArray(raw) ? [...path, index] : path, scope))
    .filter((channel) => channel !== null);
};

/** Reads `[[1.2 V, 75 %], …]`, sorted by the first column, into pairs of plain numbers. */
export const readPoints = (
  raw: unknown,
  units: readonly [UnitName, UnitName],
  path: Path,
  scope: KindScope,
): (readonly [number, number])[] =>
  (raw as unknown[][])
    .map(
      (pair, index) =>
        [
          readQuantity(pair[0], units[0], [...path, index, 0], scope),
          readQuantity(pair[1], units[1], [...path, index, 1], scope),
        ] as const,
    )
    .sort((a, b) => a[0] - b[0]);
