import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { projectRoot, runCli } from '../support/run.ts';

const counts = vi.hoisted(() => ({ prepared: 0, judged: 0 }));

vi.mock('../../src/core/prepare/prepared-packs.ts', async (original) => {
  const real = await original<typeof import('../../src/core/prepare/prepared-packs.ts')>();
  const preparePacks: typeof real.preparePacks = (...given) => {
    counts.prepared += 1;
    return real.preparePacks(...given);
  };
  return { ...real, preparePacks };
});

vi.mock('../../src/core/assess.ts', async (original) => {
  const real = await original<typeof import('../../src/core/assess.ts')>();
  const assessBriefly: typeof real.assessBriefly = (...given) => {
    counts.judged += 1;
    return real.assessBriefly(...given);
  };
  return { ...real, assessBriefly };
});

const files = {
  's7.yaml': readFileSync(join(projectRoot, 'examples/shuttle-07-left-rear-low.yaml'), 'utf8'),
};

describe('how often a command does what takes long', () => {
  beforeEach(() => {
    counts.prepared = 0;
    counts.judged = 0;
  });

  it('is once for the packs, and once before and once after a waiver', async () => {
    const told = ['--reason', 'seen on the road', '--by', 'N. Ferris', '--until', '7d'];
    const { code } = await runCli(['waive', 's7.yaml', 'left-right:rear', ...told], { files });
    expect(code).toBe(0);
    expect(counts).toEqual({ prepared: 1, judged: 2 });
  });

  it('is once where fill is left at its first question', async () => {
    const { code } = await runCli(['fill', 's7.yaml'], { files, stdin: '' });
    expect(code).toBe(0);
    expect(counts).toEqual({ prepared: 1, judged: 1 });
  });

  it('is once for a new job', async () => {
    const { code } = await runCli(
      ['new', 's8.yaml', '--vehicle', 'Shuttle 8', '--layout', 'four-corner-air'],
      {
        files,
      },
    );
    expect(code).toBe(0);
    expect(counts).toEqual({ prepared: 1, judged: 1 });
  });
});
