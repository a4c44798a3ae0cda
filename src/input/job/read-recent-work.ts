import { workAreas } from '../../core/job.ts';
import { keysOf, parseKey, placesOf } from '../../core/key.ts';
import type { Component } from '../../core/pack.ts';
import type { Warning } from '../../core/worksheet-parts.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { suggest } from '../suggest.ts';
import { itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { cornerHint, cornerMeant } from './corner-hint.ts';

interface Scope {
  readonly components: readonly Component[];
  readonly elsewhere: ReadonlyMap<string, string>;
  readonly warn: (warning: Warning) => void;
  readonly sink: Sink;
}

/** What one name of recent work comes to: an area, a component at its place, or every place of one. */
const named = (node: Node, name: string, { components, elsewhere, warn, sink }: Scope): string[] => {
  if ((workAreas as readonly string[]).includes(name)) return [name];
  const { base, corner, axle } = parseKey(name);
  const component = components.find(({ id }) => id === base);
  if (component) {
    const { id, per } = component;
    const place = corner ?? axle;
    if (placesOf(per).includes(place)) return [name];
    if (place === null) return keysOf(id, per);
    const hint = `write ${keysOf(id, per).join(', ')}`;
    sink.add('unknown-corner', node, `there is no ${component.title} at ${place}`, hint);
    return [];
  }
  const pack = elsewhere.get(base);
  if (pack !== undefined) {
    warn({ kind: 'name-not-used', name, pack });
    return [];
  }
  const dot = name.lastIndexOf('.');
  if (dot > 0 && components.some(({ id, perCorner }) => perCorner && id === name.slice(0, dot))) {
    const tail = name.slice(dot + 1);
    sink.add('unknown-corner', node, `${quoted(tail)} is not a corner`, cornerHint(tail));
    return [];
  }
  const known = [...new Set(components.map(({ id }) => id)), ...workAreas];
  const meant = cornerMeant(name);
  const near = suggest(base, known);
  const likely = meant ?? (near === null ? null : `${near}${name.slice(base.length)}`);
  const hint = likely === null ? `it can be ${known.join(', ')}` : `did you mean ${likely}?`;
  sink.add('unknown-name', node, `${quoted(name)} is neither a component nor an area of the vehicle`, hint);
  return [];
};

/** Components and areas that somebody worked on before this visit, each once. */
export const readRecentWork = (node: Node | undefined, scope: Scope): string[] => {
  const keys = itemsOf(node).flatMap((item) => {
    const name = textOf(item);
    return name === undefined ? [] : named(item, name, scope);
  });
  return [...new Set(keys)];
};
