/** Dependencies point inward: shell → report, input → core. Each rule says why. */
module.exports = {
  forbidden: [
    {
      name: 'core-imports-only-core',
      comment: 'The core is pure: no package, no Node, no other layer.',
      severity: 'error',
      from: { path: '^src/core/' },
      to: { pathNot: '^src/core/' },
    },
    {
      name: 'input-reads-no-disk',
      comment: 'Input turns text into values; whoever calls it has read the text.',
      severity: 'error',
      from: { path: '^src/input/' },
      to: {
        pathNot:
          '^src/(core|input|time)/|^node_modules/(yaml|luxon|@types/luxon|semver|@types/semver|fastest-levenshtein)/',
      },
    },
    {
      name: 'report-only-renders',
      comment:
        'Reports are functions from a worksheet to text; of input they know only the shape of a problem.',
      severity: 'error',
      from: { path: '^src/report/' },
      to: {
        pathNot:
          '^src/(core|report|time)/|^src/input/problem\\.ts$|^node_modules/(chalk|cli-table3|luxon|@types/luxon)/',
      },
    },
    {
      name: 'time-knows-only-zones',
      comment: 'Input and reports share what they know of clocks; it knows nothing of them.',
      severity: 'error',
      from: { path: '^src/time/' },
      to: { pathNot: '^src/time/|^node_modules/(luxon|@types/luxon)/' },
    },
    {
      name: 'shell-uses-few-packages',
      comment: 'The shell is thin: commander for arguments, tinyglobby for patterns, Node for the rest.',
      severity: 'error',
      from: { path: '^src/shell/' },
      to: {
        dependencyTypes: ['npm', 'npm-dev'],
        pathNot: '^node_modules/(commander|tinyglobby)/',
      },
    },
    {
      name: 'only-disk-touches-files',
      comment:
        'One guarded way in and one out: it knows pipes, devices and sizes, and what a failed write means.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/shell/disk/' },
      to: { path: '^(node:)?fs(/promises)?$' },
    },
    {
      name: 'public-is-the-outside',
      comment: 'What the package offers to other programs: nothing inside of it hangs on that.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/public/' },
      to: { path: '^src/public/' },
    },
    {
      name: 'public-is-no-command',
      comment: 'A program that judges jobs has no arguments, terminal or prompts of ours.',
      severity: 'error',
      from: { path: '^src/public/' },
      to: { path: '^src/shell/(commands|actions|completion|fill|save|entry|sweep)/' },
    },
    {
      name: 'no-circles',
      comment:
        'A circle of imports has no inside, and no beginning to read from; imports of types count, too.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'no-orphans',
      comment: 'A module nobody imports is dead.',
      severity: 'error',
      from: { orphan: true, pathNot: 'main\\.ts$|public/index\\.ts$|\\.d\\.ts$|schema/' },
      to: {},
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};
