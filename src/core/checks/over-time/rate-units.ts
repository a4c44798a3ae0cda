import type { Channel } from '../../pack.ts';
import { quantityOf, type UnitName } from '../../readings/units.ts';
import type { KindScope } from '../kind.ts';

/** The unit of a rate, and the unit in which its readings are fitted. */
export interface RateUnits {
  readonly of: UnitName;
  readonly rate: UnitName;
}

/** A rate keeps the unit of its channel where there is one of that name; others are brought to kPa. */
const pressures: readonly UnitName[] = ['psi', 'bar', 'kPa'];

/** The units of a pressure's rate; a channel that measures something else is reported. */
export const pressureRate = (channel: Channel | null, per: 'min' | 'h', scope: KindScope): RateUnits => {
  expectQuantity(channel, 'pressure', scope);
  const of = pressures.find((unit) => unit === (channel?.unit ?? 'psi')) ?? 'kPa';
  return { of, rate: `${of}/${per}` as UnitName };
};

/** The units of a height's rate; a channel that measures something else is reported. */
export const heightRate = (channel: Channel | null, scope: KindScope): RateUnits => {
  expectQuantity(channel, 'length', scope);
  return channel?.unit === 'in' ? { of: 'in', rate: 'in/h' } : { of: 'mm', rate: 'mm/h' };
};

const expectQuantity = (channel: Channel | null, wants: 'pressure' | 'length', { flaw }: KindScope): void => {
  if (channel === null || quantityOf(channel.unit) === wants) return;
  flaw({
    code: 'wrong-value',
    path: ['of'],
    message: `this kind looks at a ${wants}, and ${channel.id} is none`,
    hint: `name a channel that measures a ${wants}`,
  });
};
