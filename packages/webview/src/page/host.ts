import type { FromPreview, Kept } from '../messages.ts';
import { keptFrom } from '../messages.ts';

/** What the editor gives to a page of an extension. */
interface Host {
  postMessage(message: unknown): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare function acquireVsCodeApi(): Host;

// It may be had once only.
const host = acquireVsCodeApi();

export const say = (message: FromPreview): void => host.postMessage(message);

/** What was seen before the page was loaded anew, where anything was. */
export const keptBefore = (): Kept | undefined => keptFrom(host.getState());

export const keep = (kept: Kept): void => host.setState(kept);
