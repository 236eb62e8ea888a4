// The command `setwright`, bundled to dist/setwright.cjs. Loading the tool and building its parser
// takes longer than most of its work, so the build keeps a picture of the tool's memory with both
// done (dist/setwright-<node>-<platform>-<arch>.blob). This starts Node from that picture where
// there is one for this Node, and loads the tool itself otherwise.
import { spawn } from 'node:child_process';
import { statSync } from 'node:fs';

const tool = `${__dirname}/setwright-main.cjs`;
const blob = `${__dirname}/setwright-${process.version}-${process.platform}-${process.arch}.blob`;
// Node's own options may not fit the picture: they ask for something that was not there then.
const isPlainNode = process.execArgv.length === 0 && !process.env.NODE_OPTIONS;
/**
 * Compiling a function for speed pays when it runs for long, which nothing here does in most runs;
 * this puts it off. The same as in build.mjs, or Node refuses the picture.
 */
const engine = ['--interrupt-budget=1000000'];
/** What Node answers when it cannot start from a picture. */
const PICTURE_REFUSED = 14;

function startFromPicture() {
  // The tool never calls out, and reading certificates would take longer than all its work.
  const { NODE_EXTRA_CA_CERTS: _, ...inherited } = process.env;
  // Large pages for the picture, where the system's library has them: fewer faults.
  const env = { GLIBC_TUNABLES: 'glibc.malloc.hugetlb=1', ...inherited };
  const child = spawn(
    process.execPath,
    [...engine, '--snapshot-blob', blob, tool, ...process.argv.slice(2)],
    { stdio: 'inherit', env },
  );
  const passOn = (signal) => child.kill(signal);
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
  for (const signal of signals) process.on(signal, passOn);
  child.on('error', () => require(tool));
  child.on('exit', (status, signal) => {
    for (const each of signals) process.off(each, passOn);
    if (status === PICTURE_REFUSED) require(tool);
    else if (signal) process.kill(process.pid, signal);
    else process.exitCode = status;
  });
}

/** Half a picture would bring Node down: it must be as long as the build made it. */
function isWhole() {
  return statSync(blob, { throwIfNoEntry: false })?.size === PICTURE_BYTES;
}

// A server runs for long, and then compiling for speed pays at once.
const isApart = process.argv[2] === 'serve';
if (isPlainNode && !isApart && isWhole()) startFromPicture();
else require(tool);
