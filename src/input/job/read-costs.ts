import type { CostLine, Costs, Instant } from '../../core/job.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { get, itemsOf, type Node, numberOf, textOf } from '../yaml/tree.ts';
import { after } from './read-time.ts';
import type { Shop } from './shop.ts';

/** `85 / h`, or `85`: an amount an hour; null if it is neither. */
export const parseRate = (text: string): number | null => {
  const match = /^(\d+(?:\.\d+)?)\s*(?:\/\s*h)?$/u.exec(text.trim());
  return match ? Number(match[1]) : null;
};

const readLine = (node: Node, zone: string, timeAt: (node: Node) => Instant | null, sink: Sink): CostLine => {
  const fromNode = get(node, 'from');
  const lastsNode = get(node, 'lasts');
  const from = fromNode ? timeAt(fromNode) : null;
  const lasts = textOf(lastsNode);
  let ends: Instant | null = null;
  if (lasts !== undefined && lastsNode) {
    ends = after(from ?? 0, lasts, zone);
    if (ends === null)
      sink.add('bad-time', lastsNode, `${quoted(lasts)} is not a duration`, 'write it like P7D (seven days)');
    else if (from === null)
      sink.add('missing-key', lastsNode, 'this lasts from no time', 'add from: 2026-03-02T11:00');
  }
  return {
    kind: (textOf(get(node, 'kind')) ?? 'other') as CostLine['kind'],
    what: textOf(get(node, 'what')) ?? '',
    amount: numberOf(get(node, 'amount')),
    minutes: numberOf(get(node, 'minutes')),
    from,
    ends,
  };
};

/** A job's costs, with the shop's currency and labour rate where it names none. */
export const readCosts = (
  node: Node | undefined,
  shop: Shop | null,
  zone: string,
  timeAt: (node: Node) => Instant | null,
  sink: Sink,
): Costs => {
  const rateNode = get(node, 'labour-rate');
  const rate = textOf(rateNode);
  const labourRate = rate === undefined ? (shop?.labourRate ?? null) : parseRate(rate);
  if (rateNode && rate !== undefined && labourRate === null) {
    sink.add('wrong-value', rateNode, `${quoted(rate)} is not an amount an hour`, 'write it like 85 / h');
  }
  return {
    currency: textOf(get(node, 'currency')) ?? shop?.currency ?? null,
    labourRate,
    authorised: itemsOf(get(node, 'authorised')).map((item) => {
      const at = get(item, 'at');
      return { at: (at && timeAt(at)) ?? 0, amount: numberOf(get(item, 'amount')) ?? 0 };
    }),
    lines: itemsOf(get(node, 'lines')).map((item) => readLine(item, zone, timeAt, sink)),
  };
};
