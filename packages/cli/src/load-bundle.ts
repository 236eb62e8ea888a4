import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Node's own `require`, which within the picture of the tool's memory knows Node's parts alone. */
declare const require: (part: string) => unknown;

/**
 * Loads a bundle from disk, as Node would, where `require` does not. What V8 made of it when it was
 * built is taken where it lies beside it and fits this Node; else it is compiled anew.
 *
 * @param file with its whole path
 */
export function loadBundle(file: string): unknown {
  // Loaded late, since few runs want a bundle.
  const { createRequire, wrap } = require('node:module') as typeof import('node:module');
  const { constants, Script } = require('node:vm') as typeof import('node:vm');
  const cachedData = keptCode(file);
  // Without it nothing within the bundle can import anything; Node has it from 20.12 on.
  const importing = constants?.USE_MAIN_CONTEXT_DEFAULT_LOADER;
  if (!cachedData || importing === undefined) return createRequire(file)(file);
  const script = new Script(wrap(readFileSync(file, 'utf8')), {
    filename: file,
    cachedData,
    importModuleDynamically: importing,
  });
  const made = { exports: {} as unknown };
  script.runInThisContext()(made.exports, createRequire(file), made, file, dirname(file));
  return made.exports;
}

/** What the build kept for this Node; undefined where it kept nothing. */
function keptCode(file: string): Buffer | undefined {
  const { version, platform, arch } = process;
  const name = `${basename(file, '.cjs')}-${version}-${platform}-${arch}.code`;
  try {
    return readFileSync(join(dirname(file), name));
  } catch {
    return undefined;
  }
}
