import type { serveStdio } from '@setwright/server';

/** What serves an editor; loaded only when one asks for it. */
export type Server = () => { readonly serveStdio: typeof serveStdio };
