import { serveAsCalled, serveStdio } from './node.ts';

declare const require: { readonly main: unknown };
declare const module: unknown;

export { serveStdio };

// Started by itself it serves at once; the command line tool loads it and says when.
if (require.main === module) serveAsCalled();
