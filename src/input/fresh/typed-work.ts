import { workAreas } from '../../core/job.ts';
import { keysOf } from '../../core/key.ts';
import type { Component } from '../../core/pack.ts';
import { cornerMeant } from '../job/corner-hint.ts';
import { quoted } from '../quoted.ts';
import { suggest } from '../suggest.ts';
import { thingsCalled } from '../typed/things.ts';
import { right, type Typed, wrong } from '../typed/typed.ts';
import { speltName } from '../usual/corners.ts';

/** More than these nobody reads through. */
const mostOffered = 8;

/** One component or area that somebody worked on before, as a file names it. */
const oneWork = (typed: string, components: readonly Component[]): Typed<string> => {
  const areas: readonly string[] = workAreas;
  const spelt = cornerMeant(typed) ?? speltName(typed);
  const names = components.flatMap(({ id, per }) => [id, ...keysOf(id, per)]);
  const known = [...areas, ...names];
  const found = known.find((name) => name.toLowerCase() === spelt.toLowerCase());
  if (found !== undefined) return right(found);
  const things = components.flatMap(({ id, per, title }) => keysOf(id, per).map((name) => ({ name, title })));
  const called = thingsCalled(spelt, things).map(({ name }) => name);
  const near = suggest(spelt, known);
  const offered = called.length > 0 ? called : near === null ? [] : [near];
  const more = offered.length - mostOffered;
  const hint =
    offered.length > 0
      ? `did you mean ${offered.slice(0, mostOffered).join(', ')}${more > 0 ? ` and ${more} more` : ''}?`
      : 'name components such as sensor.RR or battery, or an area: a corner, front, rear, left, right, harness';
  return wrong(typed, `nothing in this job's packs is called ${quoted(typed)}`, hint);
};

/**
 * What was worked on before a visit, as typed: `sensor.RR, battery, front`.
 *
 * @param components those of the job's packs; null where they are not known, so that any name will do
 */
export const typedWork = (typed: string, components: readonly Component[] | null): Typed<string> => {
  const given = typed
    .split(/[,;]+/u)
    .map((one) => one.trim())
    .filter((one) => one !== '');
  if (given.length === 0) {
    return wrong(typed, 'nothing is typed here', 'write it like sensor.RR, battery');
  }
  if (components === null) return right(given.join(', '));
  const names: string[] = [];
  for (const one of given) {
    const name = oneWork(one, components);
    if (!name.ok) return name;
    names.push(name.value);
  }
  return right([...new Set(names)].join(', '));
};
