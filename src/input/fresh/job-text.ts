import { fittedBy, type Layout } from '../../core/job.ts';
import { scalarText } from '../edit/scalar-text.ts';
import { braces } from '../edit/value.ts';
import { inline } from '../edit/write-value.ts';
import { type SenseWord, senseValue } from './sensor-sense.ts';
import { symptomPairs } from './symptom-words.ts';

/** What a fresh job file says; null where nobody said it. */
export interface FreshJob {
  readonly job: string;
  readonly title: string;
  /** As it is to stand in the file. */
  readonly opened: string;
  readonly zone: string;
  /** Null where the shop file names the packs. */
  readonly packs: readonly string[] | null;
  readonly vehicle: string;
  readonly layout: Layout;
  readonly system: string | null;
  readonly battery: string | null;
  readonly charging: string | null;
  readonly sensorSignal: string | null;
  readonly sensorSense: SenseWord | null;
  /** `LR low after-standing` */
  readonly symptoms: string | null;
  /** `sensor.RR, battery` */
  readonly recentWork: string | null;
  readonly complaint: string | null;
  readonly distance: string | null;
  /** Where an editor finds the schema. */
  readonly schema: string;
  /** The packs of the shop file, for the comment. */
  readonly shopPacks: readonly string[];
}

const line = (key: string, value: string | null, otherwise: string): string =>
  value === null ? `# ${otherwise}` : `${key}: ${scalarText(value)}`;

const list = (items: readonly string[]): string => `[${items.map((item) => scalarText(item)).join(', ')}]`;

const packLine = ({ packs, shopPacks }: FreshJob): string =>
  packs === null
    ? `# packs: ${list(shopPacks)}   # by the shop file; name others here`
    : `packs: ${list(packs)}`;

/** A fresh job file with comments for what is not known yet: whoever opens it in an editor sees what can be said. */
export const freshJobText = (fresh: FreshJob): string => {
  const vehicle = [
    `name: ${scalarText(fresh.vehicle)}`,
    `layout: ${fresh.layout}`,
    line('system', fresh.system, 'system: 12 V or 24 V (12 V where nothing is said)'),
    line('battery', fresh.battery, 'battery: flooded, agm, efb, gel or lithium; charging limits hang on it'),
    line('charging', fresh.charging, 'charging: fixed or managed'),
    line(
      'sensor-signal',
      fresh.sensorSignal,
      'sensor-signal: analogue, pwm or digital (analogue where nothing is said)',
    ),
    ...(fresh.sensorSense === null
      ? [
          '# Which way the volts go as the body rises, by the vehicle maker; left and right differ on many:',
          '# sensor-sense: {LF: rising, RF: falling, LR: rising, RR: falling}',
        ]
      : [`sensor-sense: ${inline(senseValue(fresh.sensorSense, fittedBy[fresh.layout]))}`]),
    '# sensor-gain: equal',
    "# The vehicle maker's own figures come before those of the packs:",
    '# service-data:',
    '#   - {check: position-signals/ride-band, of: position.LR, between: [1.60 V, 3.10 V], source: workshop manual}',
  ];
  return `${[
    `# yaml-language-server: $schema=${fresh.schema}`,
    '# One visit of one vehicle: "cornerwise fill" asks for its readings, "cornerwise check" judges them.',
    'worksheet: 1',
    `job: ${scalarText(fresh.job)}`,
    `title: ${scalarText(fresh.title)}`,
    `opened: ${fresh.opened}`,
    `zone: ${scalarText(fresh.zone)}`,
    'status: open   # open, waiting or closed',
    packLine(fresh),
    'vehicle:',
    ...vehicle.map((one) => `  ${one}`),
    line('complaint', fresh.complaint, 'complaint: what the driver sees, when, how often'),
    fresh.symptoms === null
      ? '# symptoms: {where: LR, sits: low, when: after-standing}'
      : `symptoms: ${inline(braces(symptomPairs(fresh.symptoms)))}`,
    fresh.recentWork === null
      ? '# recent-work: [sensor.RR, battery]   # what was worked on before this visit'
      : `recent-work: ${list(fresh.recentWork.split(', '))}`,
    fresh.distance === null ? '# distance: {in: 148200 km}' : `distance: {in: ${scalarText(fresh.distance)}}`,
    '# Instruments that are better or worse than usual; "shows" spares typing zeros at the end:',
    '# instruments:',
    '#   meter: {accuracy: 0.5 % + 0.02 V, shows: 0.01 V}',
  ].join('\n')}\n`;
};
