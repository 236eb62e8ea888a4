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

/** The server's process, if there is one. */
export const serverNow = (): number | undefined => servers()[0];

/** Ends the server that there is, if any, and resolves once it is gone. */
export async function killServer(): Promise<void> {
  const all = servers();
  for (const id of all) process.kill(id, 'SIGKILL');
  while (servers().some((id) => all.includes(id)))
    await new Promise((resolve) => setTimeout(resolve, 20));
}
