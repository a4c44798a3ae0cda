import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Pack } from '../src/core/pack.ts';
import { runProof } from '../src/core/proofs/prove.ts';
import { proveChecks, provePack } from '../src/core/proofs/prove-pack.ts';
import { newestFirst } from '../src/input/pack/pick-version.ts';
import { readPack } from '../src/input/pack/read-pack.ts';
import { readProofs } from '../src/input/pack/read-proofs.ts';
import { newestPacks, openLibrary } from '../src/shell/library.ts';
import { projectRoot } from './support/run.ts';

/** Every shipped version of every pack: it reads, its proofs hold and show all that it says, and nothing released changed. */
const folder = join(projectRoot, 'rules');
const versions = readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .flatMap(({ name: id }) =>
    readdirSync(join(folder, id)).map((file) => ({
      id,
      version: file.replace(/\.yaml$/u, ''),
      file: join(folder, id, file),
    })),
  );

const released = JSON.parse(readFileSync(join(folder, 'released.json'), 'utf8')) as Record<string, string>;
/** Versions from before limits had to be pinned, with the lines of proofs that today's judgement need not leave true. */
const earlier = JSON.parse(readFileSync(join(folder, 'earlier.json'), 'utf8')) as Record<string, number[]>;
const hashOf = (file: string): string => createHash('sha256').update(readFileSync(file)).digest('hex');
const open = (file: string) => {
  const text = readFileSync(file, 'utf8');
  return { text, ...readPack(text, file, hashOf(file)) };
};

/** The versions of a pack that were released. */
const releasedOf = (id: string): string[] =>
  Object.keys(released)
    .filter((ref) => ref.startsWith(`${id}@`))
    .map((ref) => ref.slice(id.length + 1));

let others: ReadonlyMap<string, Pack> = new Map();
beforeAll(async () => {
  others = new Map((await newestPacks(openLibrary([folder]))).map((pack) => [pack.id, pack]));
});

describe.each(versions)('$id $version', ({ id, version, file }) => {
  const { text, pack, root, problems } = open(file);

  it('reads without a problem and lies where its name says', () => {
    expect(problems).toEqual([]);
    expect([pack?.id, pack?.version]).toEqual([id, version]);
  });

  it('is what was released, or newer than all that was', () => {
    const hash = released[`${id}@${version}`];
    if (hash !== undefined) expect(hashOf(file)).toBe(hash);
    else expect(newestFirst([version, ...releasedOf(id)])[0]).toBe(version);
  });

  it('has proofs that hold', () => {
    if (!pack || !root) throw new Error('the pack does not read');
    const read = readProofs(text, file, root, pack, others);
    expect(read.problems).toEqual([]);
    const failed = read.proofs.map(runProof).filter(({ failures }) => failures.length > 0);
    const excused = earlier[`${id}@${version}`] ?? [];
    // An excuse that is no longer needed is taken off the list.
    expect(failed.map(({ proof }) => proof.line)).toEqual(excused);
  });

  it('shows in its proofs all that it says', () => {
    if (!pack || !root) throw new Error('the pack does not read');
    const { proofs } = readProofs(text, file, root, pack, others);
    const all = earlier[`${id}@${version}`]
      ? proveChecks(pack, proofs)
      : provePack(pack, proofs, [...others.values()]);
    expect(all.gaps).toEqual([]);
  });
});

describe('the shipped packs together', () => {
  const refs = versions.map(({ id, version }) => `${id}@${version}`);

  it('are all that released.json lists, and perhaps versions still to be released', () => {
    expect(Object.keys(released).filter((ref) => !refs.includes(ref))).toEqual([]);
  });

  it('pin their limits, but for those that were released before they had to', () => {
    expect(Object.keys(earlier).filter((ref) => released[ref] === undefined)).toEqual([]);
    // The list is closed: a version that is released from now on is not put on it.
    expect(Object.keys(earlier)).toHaveLength(15);
  });

  it('define each step and hold point once', () => {
    const steps = [...others.values()].flatMap((pack) => pack.steps.map(({ name }) => name));
    const points = [...others.values()].flatMap((pack) => pack.holdPoints.map(({ id }) => id));
    expect(new Set(steps).size).toBe(steps.length);
    expect(new Set(points).size).toBe(points.length);
  });

  it('ask only for steps, hold points and checks that exist', () => {
    const packs = [...others.values()];
    const names = new Set(packs.flatMap((pack) => pack.steps.map(({ name }) => name)));
    const points = new Set(packs.flatMap((pack) => pack.holdPoints.map(({ id }) => id)));
    const unknown = packs.flatMap((pack) =>
      pack.steps.flatMap((step) => [
        ...step.after.filter((name) => !names.has(name)),
        ...(step.behind === null || points.has(step.behind) ? [] : [step.behind]),
      ]),
    );
    expect(unknown).toEqual([]);
    const checks = new Set(packs.flatMap((pack) => pack.checks.map(({ id }) => id)));
    const asked = packs.flatMap(({ id }) => {
      const { text } = open(versions.find((one) => one.id === id)?.file ?? '');
      return [...text.matchAll(/finding: ([a-z-]+\/[a-z-]+)/gu)].map(([, check]) => check ?? '');
    });
    expect(asked.filter((check) => !checks.has(check))).toEqual([]);
  });

  it('have the ids that scripts rely on', () => {
    const packs = [...others.values()];
    const has = (list: readonly string[], wanted: string): string[] =>
      wanted.split(' ').filter((name) => !list.includes(name));
    const channels = packs.flatMap((pack) => pack.channels.map(({ id }) => id));
    const components = packs.flatMap((pack) => pack.components.map(({ id }) => id));
    const steps = packs.flatMap((pack) => pack.steps.map(({ name }) => name));
    const checks = packs.flatMap((pack) => pack.checks.map(({ id }) => id.split('/')[1] ?? ''));
    expect([
      ...has(
        channels,
        'supply battery battery-temperature pin-supply pin-ground reference position plug-signal pin-signal height tank spring feed-drop ground-drop sensor-ground-drop standing-current compressor-supply compressor-current network-resistance damper',
      ),
      ...has(
        components,
        'control-module configuration ride-height reference-circuit sensor-ground sensor linkage wiring arm supply-feed module-ground network battery charging-system standing-load compressor compressor-feed dryer valve-block tank air-line air-spring damper body',
      ),
      ...has(
        steps,
        'compare-part-numbers save-module-data battery-and-supply plug-in-look program configure fit-and-fasten verify-complaint save-codes baseline-readings level-and-load authorise-cost height-learn running-readings clear-and-reread road-test final-read alignment-and-aim hand-over',
      ),
      ...has(
        checks,
        'rails working-band ride-band left-right front-rear diagonal pattern height-agreement twist steady reference-at-plug supply-ceiling module-against-meter module-against-pins feed-drop ground-drop sensor-ground-drop rested-battery key-on-supply cranking charging-window programming-supply tank-range pump-up leak-down height-drop spring-pair network-resistance stored-code lamp cleared-not-tested',
      ),
    ]).toEqual([]);
  });

  it('give every check a basis, and every published one its source', () => {
    const checks = [...others.values()].flatMap((pack) => pack.checks);
    const bare = checks.filter(({ basis }) => basis.kind === 'published' && !basis.source);
    expect(bare).toEqual([]);
    expect(checks.length).toBeGreaterThan(30);
  });
});

describe('the newest packs', () => {
  it('say the same where a caution of two of them has one name', () => {
    const texts = new Map<string, string>();
    for (const { cautions } of others.values())
      for (const { id, text } of cautions) {
        expect([id, texts.get(id) ?? text]).toEqual([id, text]);
        texts.set(id, text);
      }
    expect(texts.size).toBeGreaterThan(10);
  });
});
