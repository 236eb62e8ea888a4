/** What is wrong with the path of a `use`, what to do, and what it may be meant to be. */
export interface PathTrouble {
  readonly message: string;
  readonly cure: string;
  readonly instead?: string;
}

const ENDING = '.receiver';
/** No path of anybody's is longer. */
const LONGEST = 1000;

/**
 * What is wrong with the path that a `use` names; undefined where it will do. Only files of sets,
 * by their place beside the file that names them: a text that someone was sent must not reach for
 * anything else.
 */
export function pathTrouble(path: string): PathTrouble | undefined {
  if (path.trim() === '')
    return {
      message: 'This names no file.',
      cure: `Write its path as seen from this file, as in use "parts/coils${ENDING}".`,
    };
  if (path.length > LONGEST)
    return { message: 'This path is too long.', cure: 'Name a file nearer to this one.' };
  const slashed = path.replace(/\\/g, '/');
  if (/^[A-Za-z][A-Za-z0-9+.-]+:/.test(path))
    return {
      message: 'This is an address, and only files that lie with this one can be used.',
      cure: `Keep a copy beside this file, and name it by its path, as in use "parts/coils${ENDING}".`,
    };
  if (/^([A-Za-z]:|[/~])/.test(slashed))
    return {
      message: 'This path does not begin at this file, so it holds on one machine alone.',
      cure: `Write the path as seen from this file, as in use "../parts/coils${ENDING}".`,
    };
  if (path.includes('\\'))
    return {
      message: 'The folders of this path are parted by "\\", which not every machine reads.',
      cure: `Write ${slashed}.`,
      instead: slashed,
    };
  // A sign that cannot be seen, or that a system reads as something else than a name.
  const odd = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}*?|<>:]/u.exec(path)?.[0];
  if (odd !== undefined)
    return {
      message: /[*?|<>:]/.test(odd)
        ? `This path has a "${odd}" in it, which not every system takes in the name of a file.`
        : 'This path has a sign in it that cannot be seen.',
      cure: 'Write it anew with letters, digits, "-", "_" and ".".',
    };
  if (path !== path.trim())
    return {
      message: 'This path begins or ends with a space.',
      cure: `Write ${path.trim()}.`,
      instead: path.trim(),
    };
  if (!path.endsWith(ENDING) || /(^|\/)\.receiver$/.test(path)) {
    const bare = /(^|\/)[^./]+$/.test(path);
    return {
      message: `Only files whose names end in ${ENDING} can be used.`,
      cure: bare ? `Write ${path}${ENDING}.` : `Give the file a name that ends in ${ENDING}.`,
      ...(bare ? { instead: `${path}${ENDING}` } : {}),
    };
  }
  return undefined;
}

/**
 * The file that a path means, seen from the file that names it: a path where that is one, an
 * address where it is one. Undefined where nothing lies beside it, as with a text not saved yet.
 *
 * @param path one in which `pathTrouble` finds nothing wrong
 */
export function fileBeside(file: string, path: string): string | undefined {
  const scheme = /^[A-Za-z][A-Za-z0-9+.-]+:/.exec(file)?.[0];
  const words = path.split('/');
  if (scheme === undefined) return joined(file.split('/').slice(0, -1), words);
  const cut = /[?#]/.exec(file)?.index ?? file.length;
  // Of an address the server's name is no folder.
  const [, head = '', rest = ''] =
    /^([A-Za-z][A-Za-z0-9+.-]+:(?:\/\/[^/]*)?)(.*)$/.exec(file.slice(0, cut)) ?? [];
  if (!rest.startsWith('/')) return undefined;
  const folders = rest.split('/').slice(1, -1);
  const below = joined(folders, words.map(encodeURIComponent));
  return below.startsWith('../') ? undefined : `${head}/${below}`;
}

function joined(folders: readonly string[], words: readonly string[]): string {
  const path = [...folders];
  for (const word of words) {
    const last = path.at(-1);
    if (word === '' || word === '.') continue;
    if (word === '..' && last !== undefined && last !== '..' && last !== '.') {
      // Above the root there is nothing: it stays the root.
      if (!(path.length === 1 && /^([A-Za-z]:)?$/.test(last))) path.pop();
    } else path.push(word);
  }
  return path.join('/');
}

/** The last word of a path or address, as a person calls the file. */
export function nameOfFile(file: string): string {
  const last = file.slice(file.lastIndexOf('/') + 1);
  if (!/^[A-Za-z][A-Za-z0-9+.-]+:/.test(file)) return last;
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
