import { readdirSync, readFileSync } from 'node:fs';

const { home } = JSON.parse(process.env.SETWRIGHT_WORKBENCH ?? '{}') as { readonly home: string };

/** Processes of the language server that this editor started, and of no other. */
const servers = (): readonly number[] =>
  readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .filter((id) => {
      try {
        const words = readFileSync(`/proc/${id}/cmdline`, 'utf8');
        return words.includes(home) && words.includes('setwright-server-process.cjs');
      } catch {
        // It has ended meanwhile.
        return false;
      }
    })
    .map(Number);

export const isServerUp = (): boolean => servers().length > 0;

/** Ends the server at once; how many there were. */
export function killServer(): number {
  const all = servers();
  for (const id of all) process.kill(id, 'SIGKILL');
  return all.length;
}
