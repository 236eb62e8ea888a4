import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import { type RawClient, rawClient } from './lsp/raw-client.ts';

const coils = 'condenser BYPASS .001 mfd\n';
const set = `use "../parts/coils.receiver"
receiver "Lantern Cove Punt" {
  post A1
  post A2
  condenser C1 like BYPASS from A1 to A2
}
`;

const started: RawClient[] = [];
const folders: string[] = [];
afterEach(async () => {
  for (const client of started.splice(0)) {
    client.process.kill('SIGKILL');
    await client.gone;
  }
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
});

async function server(initializationOptions: object = {}): Promise<RawClient> {
  const client = rawClient();
  started.push(client);
  const capabilities = { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } };
  await client.ask('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities,
    initializationOptions,
  });
  client.notify('initialized');
  return client;
}

const open = (client: RawClient, uri: string): void =>
  client.notify('textDocument/didOpen', {
    textDocument: { uri, languageId: 'setwright', version: 1, text: set },
  });

/** The checks of the group that reads texts that speak in what was last published of a document. */
const told = (client: RawClient, uri: string): readonly string[] | undefined => {
  const last = client.heard.findLast(
    ({ method, params }) =>
      method === 'textDocument/publishDiagnostics' && (params as { uri: string }).uri === uri,
  );
  const { diagnostics } = (last?.params ?? {}) as { diagnostics?: { code: string }[] };
  return diagnostics?.map(({ code }) => code).filter((code) => /use|unknown/.test(code));
};

describe('a document that uses a file', () => {
  it('of the disk: watches it, and is told of anew when it comes', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'setwright-'));
    folders.push(folder);
    const [uri, used] = ['sets/punt.receiver', 'parts/coils.receiver'].map(
      (path) => pathToFileURL(join(folder, path)).href,
    ) as [string, string];
    const client = await server();
    await client.hear(
      ({ method, params }) =>
        method === 'client/registerCapability' && JSON.stringify(params).includes('*.receiver'),
    );
    open(client, uri);
    await expect.poll(() => told(client, uri)).toEqual(['used-file']);
    mkdirSync(dirname(join(folder, 'parts/coils.receiver')));
    writeFileSync(join(folder, 'parts/coils.receiver'), coils);
    client.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: used, type: 1 }] });
    await expect.poll(() => told(client, uri)).toEqual([]);
    const { result } = await client.ask('textDocument/definition', {
      textDocument: { uri },
      position: { line: 4, character: 22 },
    });
    expect(result).toEqual([
      { uri: used, range: { start: { line: 0, character: 10 }, end: { line: 0, character: 16 } } },
    ]);
    const links = await client.ask('textDocument/documentLink', { textDocument: { uri } });
    expect(links.result).toMatchObject([{ target: used }]);
  });

  it('of elsewhere: asks the client for it', async () => {
    const uri = 'vscode-vfs://somewhere/sets/punt.receiver';
    const client = await server({ usedTexts: true });
    open(client, uri);
    const asked = await client.hear(({ method }) => method === 'setwright/usedText');
    expect(asked.params).toEqual({ uri: 'vscode-vfs://somewhere/parts/coils.receiver' });
    client.send({ id: asked.id, result: { text: coils.replace('BYPASS', 'BYPAS') } });
    await expect.poll(() => told(client, uri)).toEqual(['unknown-name']);
  });

  it('of elsewhere: says so where the client gives none', async () => {
    const uri = 'vscode-vfs://somewhere/sets/punt.receiver';
    const client = await server();
    open(client, uri);
    await expect.poll(() => told(client, uri)).toEqual(['used-file']);
  });
});
