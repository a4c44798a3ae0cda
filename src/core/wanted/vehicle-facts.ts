import type { BriefWorksheet } from '../worksheet.ts';

/** What a job may say of its vehicle, that somebody can look up while the vehicle is there. */
export const vehicleFacts = ['battery', 'charging', 'sensor-sense'] as const;
export type VehicleFact = (typeof vehicleFacts)[number];

/**
 * Facts of the vehicle that nobody stated and that matter now: a check cannot judge a reading without them, or something
 * is out that may only look so.
 */
export const factsWanted = ({ findings }: BriefWorksheet): VehicleFact[] => {
  const wanted = new Set<string>();
  for (const { missing, verdict, remarks, newest, stale, waived, wanted: asks } of findings) {
    if (waived !== null || !newest) continue;
    if (missing?.why === 'vehicle-not-stated' && asks) wanted.add(missing.what);
    const isOut = (verdict === 'out' || verdict === 'too-close') && !stale;
    if (isOut && remarks.some(({ kind }) => kind === 'sense-not-stated')) wanted.add('sensor-sense');
  }
  return vehicleFacts.filter((fact) => wanted.has(fact));
};
