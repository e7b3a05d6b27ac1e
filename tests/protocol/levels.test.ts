import { writeFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Client, type ClientOptions, messagesIn, startClient } from './client.ts';
import { createFolder, type Folder } from './yard.ts';

/** Of 240 kg that stand 2050 mm behind the coupling of an axle at 2600 mm, 21 % are on the coupling: RW603, information. */
const HEAVY = `trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2050 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
}
`;
const stated = (level: string): string => `{ "levels": { "RW603": { "level": "${level}", "reason": "by design" } } }\n`;
const SEVERITY = { error: 1, warning: 2, information: 3 } as const;
const CHANGED = 2;

let client: Client;
let folder: Folder;

const start = async (options: ClientOptions = {}): Promise<void> => {
  client = await startClient({ initialize: { workspaceFolders: [{ uri: folder.uri, name: 'yard' }] }, ...options });
};
const load = () => folder.uriOf('load.rig');
const settings = () => folder.uriOf('rigwright.json');
const last = (uri: string) => client.published.filter((one) => one.uri === uri).at(-1)?.diagnostics;
const severities = () => last(load())?.map(({ code, severity }) => [code, severity]);
const changed = (uri: string): Promise<void> =>
  client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type: CHANGED }] });

beforeEach(() => {
  folder = createFolder();
});
afterEach(async () => {
  expect(client.faults).toEqual([]);
  expect(await client.stop()).toBe(0);
  await folder.remove();
});

describe('the workspace file', () => {
  it('is heeded before anything is published', async () => {
    await folder.write('rigwright.json', stated('error'));
    await start();
    await client.open(load(), HEAVY);
    await client.quiet();
    expect(client.published.map(({ uri }) => uri)).toEqual([load()]);
    expect(severities()).toEqual([['RW603', SEVERITY.error]]);
  });

  it('is followed when it changes and when it goes', async () => {
    await start();
    await client.open(load(), HEAVY);
    await expect.poll(severities).toEqual([['RW603', SEVERITY.information]]);
    await folder.write('rigwright.json', stated('off'));
    await changed(settings());
    await expect.poll(severities).toEqual([]);
    await rm(path.join(folder.path, 'rigwright.json'));
    await changed(settings());
    await expect.poll(severities).toEqual([['RW603', SEVERITY.information]]);
    expect(last(settings()), 'nothing was wrong with it').toBeUndefined();
  });

  it.each([
    ['{ "levels": { "RW603": ', 'RW895'],
    ['{ "levels": { "RW63": { "level": "off", "reason": "x" } } }', 'RW890'],
    [stated('quiet'), 'RW892'],
  ])('with %s is told of in that file, until it is mended', async (text, code) => {
    writeFileSync(fileURLToPath(settings()), text);
    await start();
    await client.open(load(), HEAVY);
    await expect.poll(() => last(settings())?.map((diagnostic) => diagnostic.code)).toEqual([code]);
    await expect.poll(severities).toEqual([['RW603', SEVERITY.information]]);
    await folder.write('rigwright.json', stated('off'));
    await changed(settings());
    await expect.poll(() => last(settings())).toEqual([]);
    await expect.poll(severities).toEqual([]);
  });

  it('binds the files of its own folder, and goes with it', async () => {
    await folder.write('a/rigwright.json', stated('off'));
    await folder.write('b/rigwright.json', '[]');
    const folders = ['a', 'b'].map((name) => ({ uri: folder.uriOf(name), name }));
    await start({
      capabilities: { workspace: { workspaceFolders: true } },
      initialize: { workspaceFolders: folders },
    });
    const [a, b] = [folder.uriOf('a/load.rig'), folder.uriOf('b/load.rig')];
    await client.open(a, HEAVY);
    await client.open(b, HEAVY);
    await expect.poll(() => last(b)).toHaveLength(1);
    await expect.poll(() => last(a)).toEqual([]);
    const wrong = folder.uriOf('b/rigwright.json');
    await expect.poll(() => last(wrong)).toHaveLength(1);
    await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
      event: { added: [], removed: folders },
    });
    await expect.poll(() => last(wrong)).toEqual([]);
    await expect.poll(() => last(a)).toHaveLength(1);
  });

  describe('open in the client', () => {
    const RW603 = (level: keyof typeof SEVERITY) => [['RW603', SEVERITY[level]]];

    it('holds as it is written there, saved or not, until it is closed', async () => {
      await folder.write('rigwright.json', stated('error'));
      await start();
      await client.open(load(), HEAVY);
      await client.diagnostics(load());
      await expect.poll(severities).toEqual(RW603('error'));
      await client.open(settings(), stated('warning'));
      await expect.poll(severities).toEqual(RW603('warning'));
      const text = stated('warning');
      const at = text.indexOf('warning');
      const range = { start: { line: 0, character: at }, end: { line: 0, character: at + 'warning'.length } };
      await client.change(settings(), 2, { range, text: 'off' });
      await expect.poll(severities).toEqual([]);
      await changed(settings());
      await client.quiet();
      expect(severities(), 'what is on disk is older').toEqual([]);
      await client.connection.sendNotification('textDocument/didClose', { textDocument: { uri: settings() } });
      await expect.poll(severities).toEqual(RW603('error'));
    });

    it('holds where it was open first, and where there is none on disk', async () => {
      await start();
      await client.open(settings(), stated('warning'));
      await client.open(load(), HEAVY);
      await client.diagnostics(load());
      await expect.poll(severities).toEqual(RW603('warning'));
      expect(last(settings())).toBeUndefined();
    });

    it('is told there what is wrong in it, and is no rig file', async () => {
      await start();
      await client.open(load(), HEAVY);
      await client.diagnostics(load());
      await client.open(settings(), stated('quiet'));
      await expect
        .poll(() => last(settings())?.map(({ code, range }) => [code, range.start.line]))
        .toEqual([['RW892', 0]]);
      await client.change(settings(), 2, { text: `\n${stated('quiet')}` });
      await expect.poll(() => last(settings())?.[0]?.range.start.line).toBe(1);
      await client.change(settings(), 3, { text: stated('error') });
      await expect.poll(() => last(settings())).toEqual([]);
      await expect.poll(severities).toEqual(RW603('error'));
    });

    it('is asked about in vain: it holds nothing of the language', async () => {
      await start({ capabilities: { textDocument: { diagnostic: {} } } });
      await client.open(settings(), stated('off'));
      const textDocument = { uri: settings() };
      const position = { line: 0, character: 3 };
      expect(await client.connection.sendRequest('textDocument/hover', { textDocument, position })).toBeNull();
      expect(await client.connection.sendRequest('textDocument/diagnostic', { textDocument })).toEqual({
        kind: 'full',
        items: [],
      });
    });

    it('in another folder than the workspace’s does not bind it', async () => {
      await start();
      await client.open(folder.uriOf('below/rigwright.json'), stated('off'));
      await client.open(load(), HEAVY);
      await client.diagnostics(load());
      await expect.poll(severities).toEqual(RW603('information'));
      expect(last(folder.uriOf('below/rigwright.json'))).toBeUndefined();
    });
  });

  it('is no hindrance where it cannot be read', async () => {
    await folder.write('rigwright.json', new Uint8Array([0xff, 0xfe, 0x00]));
    await start();
    await client.open(load(), HEAVY);
    await expect.poll(severities).toEqual([['RW603', SEVERITY.information]]);
  });
});

describe('the setting of the editor', () => {
  let setting: unknown;
  let asked: unknown[];
  const startAsked = async (): Promise<void> => {
    asked = [];
    await start({
      capabilities: { workspace: { configuration: true, didChangeConfiguration: { dynamicRegistration: true } } },
      prepare: (connection) => {
        connection.onRequest('workspace/configuration', (params) => {
          asked.push(params);
          return [setting];
        });
      },
    });
  };

  it('is asked for, and asked for again when settings change', async () => {
    setting = { RW603: 'warning' };
    await startAsked();
    await client.open(load(), HEAVY);
    await client.quiet();
    expect(client.published).toHaveLength(1);
    expect(severities()).toEqual([['RW603', SEVERITY.warning]]);
    expect(asked).toEqual([{ items: [{ section: 'rigwright.levels' }] }]);
    setting = { RW603: 'off' };
    await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
    await expect.poll(severities).toEqual([]);
  });

  it('is taken from the notification of a client that cannot be asked', async () => {
    await start();
    await client.open(load(), HEAVY);
    await expect.poll(severities).toEqual([['RW603', SEVERITY.information]]);
    await client.connection.sendNotification('workspace/didChangeConfiguration', {
      settings: { rigwright: { levels: { RW603: 'error' } } },
    });
    await expect.poll(severities).toEqual([['RW603', SEVERITY.error]]);
  });

  it('comes after the workspace file, and that after the file itself', async () => {
    setting = { RW603: 'error' };
    await folder.write('rigwright.json', stated('warning'));
    await startAsked();
    await client.open(load(), HEAVY);
    await expect.poll(severities).toEqual([['RW603', SEVERITY.warning]]);
    await client.change(load(), 2, { text: `rule RW603 information "as ever"\n${HEAVY}` });
    await expect.poll(severities).toEqual([['RW603', SEVERITY.information]]);
  });

  it.each([
    ['a list', ['RW603']],
    ['nonsense', { RW603: 'quiet', RW101: 'off' }],
    ['text', 'off'],
  ])('that is %s changes nothing', async (_, value) => {
    setting = value;
    await startAsked();
    await client.open(load(), HEAVY);
    expect(messagesIn(await client.diagnostics(load()))).toHaveLength(1);
    expect(severities()).toEqual([['RW603', SEVERITY.information]]);
  });

  it('that never comes holds nothing up for long', async () => {
    await start({
      capabilities: { workspace: { configuration: true } },
      prepare: (connection) => {
        connection.onRequest('workspace/configuration', () => new Promise(() => undefined));
      },
    });
    await client.open(load(), HEAVY);
    expect(await client.diagnostics(load())).toHaveLength(1);
  });
});
