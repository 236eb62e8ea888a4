/** What a call of `compare` asks for. */
export interface CompareCall {
  readonly old: string;
  readonly now: string;
  /** What the two are called; undefined: by their files. */
  readonly oldName: string | undefined;
  readonly nowName: string | undefined;
  /** Whether git calls, which takes any answer but 0 for a breakdown. */
  readonly byGit: boolean;
}

/** Words of a call by git: path, old file, hex and mode, new file, hex and mode. */
const GIT_WORDS = 7;

/**
 * What the words of a call mean: two files; or the seven words with which git calls an external
 * diff, nine and more where the file has another name; or the one of a file that is not merged.
 *
 * @param isGit whether git says in the environment that it calls
 */
export function compareCall(
  words: readonly string[],
  isGit: boolean,
): CompareCall | { readonly unmerged: string } | undefined {
  const [path, old, , , now, , , newPath] = words;
  if (words.length === 2 && path !== undefined && old !== undefined)
    return { old: path, now: old, oldName: undefined, nowName: undefined, byGit: false };
  if (isGit && words.length === 1 && path !== undefined) return { unmerged: path };
  if (words.length < GIT_WORDS || path === undefined || old === undefined || now === undefined)
    return undefined;
  if (words.length === GIT_WORDS + 1) return undefined;
  return { old, now, oldName: path, nowName: newPath ?? path, byGit: true };
}
