import type { Browser } from 'playwright-core';

interface Editor {
  readonly address: string;
  readonly authority: string;
}

export function openBrowser(): Promise<Browser>;

export function workbench(
  editor: Editor,
  folder: string,
  payload?: readonly (readonly [string, string])[],
): string;
