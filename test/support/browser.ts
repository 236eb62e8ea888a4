import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const places = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** The browser of this machine; SETWRIGHT_CHROMIUM names another. Nothing leaves the machine. */
export const openBrowser = (): Promise<Browser> =>
  chromium.launch({
    executablePath:
      process.env.SETWRIGHT_CHROMIUM ?? places.find((path) => existsSync(path)) ?? places[0]!,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1',
    ],
  });
