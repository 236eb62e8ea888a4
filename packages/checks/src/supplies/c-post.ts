import type { Part } from '@setwright/circuit';

/** A post or bus for a C battery: by the name that such posts have, or what its title says. */
export const isCPost = ({ kind, name, title }: Part): boolean =>
  (kind === 'post' || kind === 'bus') &&
  (/^C[-+]/.test(name) || /\bC(?: battery|[-+\u2212])|\bgrid bias\b/i.test(title ?? ''));
