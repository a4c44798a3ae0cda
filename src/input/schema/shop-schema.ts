import type { Schema } from '../../core/checks/kind.ts';
import { duration, list, map, name, oneOf } from './schema-shapes.ts';

const money: Schema = { type: 'number', minimum: 0 };

export const shopSchema: Schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  $id: 'shop.json',
  title: 'Cornerwise shop file',
  description: 'What holds for every job below its folder: rule folders, defaults, equipment.',
  ...map({
    rules: list(name),
    packs: list(name),
    zone: name,
    units: map({ pressure: oneOf(['psi', 'bar', 'kPa']), temperature: oneOf(['°C', '°F']) }),
    'labour-rate': { type: ['string', 'number'], 'x-expected': 'an amount an hour, such as 85 / h' },
    currency: { type: 'string', pattern: '^[A-Z]{3}$', 'x-expected': 'a currency code such as EUR' },
    'fail-on': oneOf(['hold', 'look', 'never']),
    'order-hold': money,
    tolerance: money,
    downtime: money,
    'standing-authority': map({ by: name, 'up-to': money }, ['by', 'up-to']),
    equipment: list(
      map(
        {
          name,
          does: list(name, 1),
          access: map({ amount: money, per: oneOf(['vehicle', 'period', 'use']), lasts: duration }, [
            'amount',
            'per',
          ]),
        },
        ['name', 'does'],
      ),
    ),
  }),
};
