/** What finds files by patterns, loaded where a name may be one: mostly the files are named, or the shell found them. */
const finder = () => import('tinyglobby');

/** Whether a name is a pattern such as `jobs/*.yaml`. */
export const isPattern = async (name: string): Promise<boolean> => (await finder()).isDynamicPattern(name);

/** The files that match a pattern, sorted. */
export const matching = async (pattern: string, cwd: string): Promise<string[]> => {
  const { glob } = await finder();
  return (await glob([pattern], { cwd, onlyFiles: true, expandDirectories: false })).sort();
};
