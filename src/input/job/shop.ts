import { type Equipment, type ShopTerms, usualTerms } from '../../core/job.ts';
import type { FailLevel } from '../../core/level.ts';
import type { UnitName } from '../../core/readings/units.ts';

/** What a shop file says; all of it is optional. */
export interface Shop {
  readonly rules: readonly string[];
  readonly packs: readonly string[] | null;
  readonly zone: string | null;
  readonly pressureUnit: UnitName | null;
  readonly temperatureUnit: UnitName | null;
  readonly labourRate: number | null;
  readonly currency: string | null;
  readonly failOn: FailLevel | null;
  readonly equipment: readonly Equipment[] | null;
  readonly terms: ShopTerms;
}

/** A shop that says nothing; every part of a shop file is optional. */
export const emptyShop: Shop = {
  rules: [],
  packs: null,
  zone: null,
  pressureUnit: null,
  temperatureUnit: null,
  labourRate: null,
  currency: null,
  failOn: null,
  equipment: null,
  terms: usualTerms,
};
