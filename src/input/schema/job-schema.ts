import type { Schema } from '../../core/checks/kind.ts';
import {
  amount,
  bareSnapshot,
  duration,
  instruments,
  list,
  logEntry,
  map,
  name,
  oneOf,
  quantity,
  snapshot,
  symptoms,
  text,
  time,
  vehicle,
} from './schema-shapes.ts';

const costs: Schema = map({
  currency: { type: 'string', pattern: '^[A-Z]{3}$', 'x-expected': 'a currency code such as EUR' },
  'labour-rate': { type: ['string', 'number'], 'x-expected': 'an amount an hour, such as 85 / h' },
  authorised: list(map({ at: time, amount, by: name, how: name }, ['at', 'amount'])),
  lines: list(
    map(
      {
        kind: oneOf(['part', 'labour', 'access', 'other']),
        what: name,
        amount,
        minutes: { type: 'number', minimum: 0 },
        from: time,
        lasts: duration,
        note: text,
      },
      ['kind', 'what'],
    ),
  ),
});

export const jobSchema: Schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  $id: 'job.json',
  title: 'Cornerwise job file',
  description: "One vehicle's visit: what it is, what was read, what was done.",
  ...map(
    {
      worksheet: { const: 1 },
      job: name,
      title: { type: 'string', minLength: 1, maxLength: 200 },
      opened: time,
      zone: name,
      status: oneOf(['open', 'waiting', 'closed']),
      packs: { ...list({ type: 'string' }), 'x-expected': 'a list such as [position-signals@1]' },
      vehicle,
      complaint: text,
      symptoms,
      'recent-work': { ...list(name), 'x-expected': 'a list such as [sensor.RR, tyres]' },
      distance: map({ in: quantity, out: quantity }),
      instruments,
      ...bareSnapshot,
      snapshots: list(snapshot),
      log: list(logEntry),
      costs,
      waivers: list(
        map({ finding: name, reason: text, by: name, until: time, under: name }, [
          'finding',
          'reason',
          'by',
          'until',
        ]),
      ),
    },
    ['vehicle'],
  ),
};
