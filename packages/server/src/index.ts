export type { serveStdio } from './node.ts';
