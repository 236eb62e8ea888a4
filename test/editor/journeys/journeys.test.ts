import { equal, match, ok } from 'node:assert/strict';
import { readFileSync, statSync } from 'node:fs';
import { killServer, serverNow } from './server-process.ts';
import {
  closeBrowser,
  type Desk,
  eventually,
  lineOf,
  openDesk,
  pathOf,
  textOf,
} from './support.ts';

let desk: Desk;

/** Where the reader stands over the drawing: the point in the middle of the window, and the scale. */
const stood = async (): Promise<{ readonly x: number; readonly y: number; scale: string }> => {
  const svg = desk.preview().locator('.picture svg').first();
  const seen = await svg.evaluate((each) => each.getAttribute('viewBox') ?? '');
  const [x = 0, y = 0, width = 0, height = 0] = seen.split(' ').map(Number);
  const scale = (await desk.preview().locator('.zoom .share').textContent()) ?? '';
  return { x: x + width / 2, y: y + height / 2, scale };
};

const openDiagram = async (): Promise<void> => {
  await desk.command('Setwright: Open Diagram to the Side');
  await desk.symbol('V3').waitFor();
  await desk.painted();
};

/** How wide a symbol is on the screen; one that is just drawn anew is looked for again. */
async function sizeOf(name: string): Promise<number> {
  const box = await eventually(
    () => desk.symbol(name).boundingBox(),
    (found) => found !== null,
  );
  return box?.width ?? Number.NaN;
}

/** Back to the text, with the focus in it. */
const toText = async (): Promise<void> => {
  await desk.intoText();
};

/** Answers the dialog that offers a place for a file beside the text, and waits for the file. */
async function keep(file: string): Promise<void> {
  const place = desk.page.locator('.quick-input-widget input[type=text]');
  await eventually(
    () => place.inputValue(),
    (path) => path.endsWith(`/${file}`),
  );
  // While it still looks into the folder the dialog takes no notice of the key.
  await desk.page.locator('.quick-input-list .monaco-list-row').first().waitFor();
  const busy = desk.page.locator('.quick-input-widget .monaco-progress-container.active');
  await busy.waitFor({ state: 'detached' });
  await desk.page.keyboard.press('Enter');
  await place.waitFor({ state: 'hidden' });
  await eventually(
    async () => statSync(pathOf(file), { throwIfNoEntry: false })?.size ?? 0,
    (size) => size > 0,
  );
}

describe('a person at the workbench', function () {
  this.timeout(90_000);
  before(async () => {
    desk = await openDesk();
  });
  afterEach(async function () {
    if (this.currentTest?.state === 'failed') {
      await desk.picture(`failed-${this.currentTest.title.replaceAll(/\W+/g, '-').slice(0, 60)}`);
      await desk.calm();
    }
  });
  after(async () => {
    await desk.close();
    await closeBrowser();
  });

  it('opens a faulty set and sees the finding underlined, in words and in the Problems view', async () => {
    await desk.open('grid-return-side');
    await desk.page.locator('.monaco-editor .squiggly-error, .squiggly-warning').first().waitFor();
    await desk.command('Problems: Focus on Problems View');
    const row = desk.page.locator('.markers-panel .monaco-list-row', {
      hasText: 'grid-return-side',
    });
    await row.first().waitFor();
    await desk.picture('problems');
    await desk.command('View: Hide Panel');
  });

  it('hovers the finding and reads why and what to do', async () => {
    await toText();
    const line = lineOf(textOf('grid-return-side'), 'leak R1');
    await desk.goTo(line, 10);
    await desk.hoverSaying(/R1.*A\+/);
    await desk.picture('hover');
    await desk.page.keyboard.press('Escape');
  });

  it('puts the finding right from the light bulb', async () => {
    await toText();
    const line = lineOf(textOf('grid-return-side'), 'leak R1');
    await desk.goTo(line, 10);
    await desk.page.keyboard.press('Control+.');
    const chosen = desk.page.locator('.action-widget .monaco-list-row.focused');
    await chosen.waitFor();
    await desk.picture('quick-fix');
    for (;;) {
      const words = await chosen.textContent();
      if (words?.includes('A+')) break;
      await desk.page.keyboard.press('ArrowDown');
      await eventually(
        () => chosen.textContent(),
        (now) => now !== words,
      );
    }
    await desk.page.keyboard.press('Enter');
    await eventually(
      async () => desk.page.locator('.monaco-editor .view-lines').first().textContent(),
      (text) => text?.replaceAll('\u00a0', ' ').includes('from V1.grid to A+') === true,
    );
    await desk.revert();
  });

  it('reads the page of the check: why it matters, when it keeps silent', async () => {
    await toText();
    await desk.goTo(lineOf(textOf('grid-return-side'), 'leak R1'), 10);
    await eventually(
      async () => desk.page.locator('.monaco-editor .squiggly-warning').count(),
      (count) => count > 0,
    );
    await desk.command('Setwright: Explain This Finding');
    await desk.preview().locator('h1', { hasText: 'grid-return-side' }).waitFor();
    await desk.closeEditor();
    // Its page would be taken for that of the preview.
    await desk.page.locator('iframe.webview').waitFor({ state: 'detached' });
  });

  it('sees hints and lenses in a sound set', async () => {
    await desk.open('five-tube-trf');
    await desk.goTo(lineOf(textOf('five-tube-trf'), 'coil L1'));
    await eventually(
      async () => desk.page.locator('.monaco-editor .view-lines').first().textContent(),
      (text) => /\d\s*[µu]H/.test(text ?? ''),
    );
    await desk.page.locator('.monaco-editor .codelens-decoration a').first().waitFor();
    await desk.picture('hints-and-lenses');
  });

  it('opens the diagram beside the text, and the text keeps the focus', async () => {
    await openDiagram();
    const { line } = await desk.cursor();
    await desk.page.keyboard.press('ArrowDown');
    await eventually(desk.cursor, (now) => now.line === line + 1);
    await desk.picture('diagram');
  });

  it('moves in the text and sees the symbol light up', async () => {
    await desk.goTo(lineOf(textOf('five-tube-trf'), 'leak R3'), 8);
    await eventually(
      async () => desk.symbol('R3').getAttribute('class'),
      (classes) => /\blit\b/.test(classes ?? ''),
    );
    await desk.picture('lit');
  });

  it('types a line and sees the picture follow, with zoom and place as they were', async () => {
    const zoomIn = desk.preview().getByRole('button', { name: 'Zoom in' });
    await zoomIn.click();
    await zoomIn.click();
    const before = await stood();
    const place = await sizeOf('V3');
    await desk.goTo(lineOf(textOf('five-tube-trf'), 'condenser C6'));
    await desk.typeLine('condenser C7 .0005 mfd from V3.plate to GND');
    await desk.symbol('C7').waitFor();
    // A drawing that grew may move; its scale and its size on the screen may not change.
    equal((await stood()).scale, before.scale);
    const now = await sizeOf('V3');
    ok(Math.abs(place - now) < 0.5, JSON.stringify([place, now]));
    await desk.picture('typed');
  });

  it('sees the last good picture, marked, while a line is half written', async () => {
    await desk.typeLine('condenser C8 from @');
    const state = desk.preview().getByRole('status');
    await eventually(
      async () => state.textContent(),
      (words) => words?.includes('last good picture') === true,
    );
    await desk.symbol('C7').waitFor();
    await desk.picture('stale');
    await desk.revert();
    await desk.symbol('C7').waitFor({ state: 'detached' });
    await state.waitFor({ state: 'hidden' });
  });

  it('compares the text with the saved file, on the drawing and in words', async () => {
    await toText();
    await desk.goTo(lineOf(textOf('five-tube-trf'), 'condenser C6'));
    await desk.typeLine('condenser C7 .0005 mfd from V3.plate to GND');
    await desk.command('Setwright: Compare with Saved Version');
    const page = desk.preview();
    await page
      .getByText(/^Condenser C7, /)
      .first()
      .waitFor();
    await page.getByText('Against the text as saved').first().waitFor();
    await desk.painted();
    await desk.picture('compare');
    await page
      .getByText(/^Condenser C7, /)
      .first()
      .click();
    const wanted = lineOf(textOf('five-tube-trf'), 'condenser C6') + 1;
    await eventually(desk.cursor, ({ line }) => line === wanted);
    await toText();
    await desk.revert();
    await desk.preview().getByRole('tab', { name: 'Diagram' }).click();
    await desk.symbol('V3').waitFor();
    await desk.painted();
  });

  it('clicks a symbol and lands on its line', async () => {
    await desk.preview().getByRole('button', { name: 'Show the whole' }).click();
    await desk.symbol('C4').click();
    const wanted = lineOf(textOf('five-tube-trf'), 'condenser C4');
    await eventually(desk.cursor, ({ line }) => line === wanted);
  });

  it('hovers a symbol and reads what the editor says of it', async () => {
    await desk.symbol('R3').hover();
    await desk.preview().getByRole('tooltip').filter({ hasText: 'R3' }).waitFor();
    await desk.picture('card');
    await desk.page.mouse.move(5, 400);
  });

  it('renames a part across the file', async () => {
    await toText();
    const text = textOf('five-tube-trf');
    const line = lineOf(text, 'tube V3');
    await desk.goTo(line, (text.split('\n')[line - 1] ?? '').indexOf('V3') + 2);
    await desk.page.keyboard.press('F2');
    const box = desk.page.locator('.rename-box input');
    await box.waitFor();
    await box.fill('VD');
    await desk.page.keyboard.press('Enter');
    await desk.symbol('VD').waitFor();
    equal(await desk.symbol('V3').count(), 0);
    await desk.revert();
    await desk.symbol('V3').waitFor();
  });

  it('opens the data of a tube type, which cannot be written to', async () => {
    await toText();
    const text = textOf('five-tube-trf');
    const line = lineOf(text, 'tube V3');
    await desk.goTo(line, (text.split('\n')[line - 1] ?? '').indexOf('01-A') + 2);
    await desk.page.keyboard.press('F12');
    await desk.page.locator('.tab.active', { hasText: 'tubes.receiver' }).waitFor();
    await desk.page.locator('.monaco-editor.focused[data-uri^="setwright:"]').waitFor();
    await desk.page.keyboard.type('x');
    await desk.page.locator('.monaco-editor-overlaymessage').waitFor();
    await desk.picture('tube-data');
    await desk.closeEditor();
  });

  it('turns to the dial chart and back', async () => {
    await desk.preview().getByRole('tab', { name: 'Dials' }).click();
    await desk.preview().locator('td').first().waitFor();
    await desk.picture('dials');
    await desk.preview().getByRole('tab', { name: 'Diagram' }).click();
    await desk.symbol('V3').waitFor();
  });

  it('walks the tour by keys, and sees the way of each step drawn', async () => {
    await desk.preview().getByRole('tab', { name: 'Tour' }).click();
    const title = desk.preview().locator('.tour h2');
    await title.filter({ hasText: 'The set at a glance' }).waitFor();
    const place = desk.preview().locator('.tour .share');
    for (let step = 2; !(await title.textContent())?.startsWith('The plate current'); step += 1) {
      await desk.page.keyboard.press('PageDown');
      await place.filter({ hasText: new RegExp(`^${step} of`) }).waitFor();
    }
    ok((await desk.preview().locator('.picture .told .path').count()) > 3, 'its way is drawn');
    ok((await desk.preview().locator('.picture .dimmed').count()) > 10, 'all else is dimmed');
    await desk.picture('tour');
    await desk.preview().getByRole('tab', { name: 'Diagram' }).click();
    await desk.symbol('V3').waitFor();
    await desk.painted();
  });

  for (const [theme, kind] of [
    ['Light Modern', 'light'],
    ['Dark High Contrast', 'dark-high-contrast'],
    ['Light High Contrast', 'light-high-contrast'],
    ['Dark Modern', 'dark'],
  ] as const) {
    it(`reads the picture in the theme ${theme}`, async () => {
      await toText();
      await desk.setTheme(theme);
      const body = desk.preview().locator('body');
      const wanted = { light: 'vscode-light', dark: 'vscode-dark' }[kind.split('-')[0] ?? ''] ?? '';
      await eventually(
        async () => (await body.getAttribute('class')) ?? '',
        (classes) =>
          kind.includes('contrast')
            ? classes.includes('vscode-high-contrast-light') === kind.startsWith('light') &&
              classes.includes('vscode-high-contrast')
            : classes.includes(wanted),
      );
      const colors = await desk.symbol('R3').evaluate((symbol) => ({
        ink: getComputedStyle(symbol.querySelector('.stroke') ?? symbol).stroke,
        paper: getComputedStyle(document.body).backgroundColor,
      }));
      ok(colors.ink !== colors.paper, JSON.stringify(colors));
      await desk.picture(`theme-${kind}`);
    });
  }

  it('reloads the window and finds the preview as it was', async () => {
    await desk.preview().getByRole('button', { name: 'Period symbols' }).click();
    await desk.painted();
    const zoomIn = desk.preview().getByRole('button', { name: 'Zoom in' });
    await zoomIn.click();
    await zoomIn.click();
    const before = await stood();
    await Promise.all([
      desk.page.waitForEvent('domcontentloaded'),
      desk.command('Developer: Reload Window'),
    ]);
    await desk.page.locator('.monaco-workbench .part.editor').waitFor();
    await desk.symbol('V3').waitFor({ timeout: 40_000 });
    await desk.painted();
    const pressed = desk.preview().getByRole('button', { name: 'Period symbols' });
    equal(await pressed.getAttribute('aria-pressed'), 'true');
    const now = await stood();
    const isSame =
      Math.abs(before.x - now.x) < 2 &&
      Math.abs(before.y - now.y) < 2 &&
      before.scale === now.scale;
    ok(isSame, JSON.stringify([before, now]));
    await desk.picture('reloaded');
  });

  it('begins a new set from a pattern', async () => {
    await desk.command('Setwright: New Set from a Pattern');
    await desk.choose('Crystal');
    const fresh = desk.page.locator('.monaco-editor.focused[data-uri^="untitled:"] .view-lines');
    await eventually(
      async () => fresh.textContent(),
      (text) => text?.includes('receiver') === true,
    );
  });

  it('keeps the drawing as SVG and as PNG', async () => {
    await desk.open('two-tube');
    for (const [words, ending] of [
      ['SVG on white paper', 'svg'],
      ['PNG picture', 'png'],
    ] as const) {
      await desk.command('Setwright: Export Drawing');
      await desk.choose(words);
      await keep(`two-tube.${ending}`);
    }
    const svg = readFileSync(pathOf('two-tube.svg'), 'utf8');
    match(svg, /^<svg [^>]*width="297mm"/);
    ok(svg.includes('class="block"'), 'with its title block');
    const png = readFileSync(pathOf('two-tube.png'));
    equal(png.subarray(1, 4).toString('latin1'), 'PNG');
    // A sheet at 300 points to the inch: 297 by 210 millimetres.
    const [width, height] = [png.readUInt32BE(16), png.readUInt32BE(20)];
    ok(Math.abs(width - 3508) < 4 && Math.abs(height - 2480) < 4, `${width} by ${height}`);
    ok(isPictured(png), 'there is ink on the paper');
  });

  it('copies the drawing as a picture, and the text has the keys again', async () => {
    await desk.command('Setwright: Export Drawing');
    await desk.choose('Copy as a picture');
    await desk.page
      .locator('.statusbar-item', { hasText: 'The drawing is on the clipboard.' })
      .waitFor();
    // And the keys are back in the text.
    await desk.page.locator('.monaco-editor.focused[data-uri$="/two-tube.receiver"]').waitFor();
  });

  it('keeps the service sheet as a page for print', async () => {
    await desk.open('two-tube');
    await desk.command('Setwright: Export Service Sheet');
    await keep('two-tube-service-sheet.html');
    const page = readFileSync(pathOf('two-tube-service-sheet.html'), 'utf8');
    match(page, /^<!doctype html>/);
    match(page, /data-part="V1"/);
    ok(!page.includes('<script'), 'it runs nothing');
  });

  it('goes on when the server dies, and is told when it dies again and again', async () => {
    await desk.open('grid-return-side');
    const line = lineOf(textOf('grid-return-side'), 'leak R1');
    await desk.goTo(line, 10);
    const told = desk.page.locator('.notification-toast', {
      hasText: 'Setwright: The language server',
    });
    const mark = desk.page.locator('.monaco-editor .squiggly-warning').first();
    await mark.waitFor();
    await killServer();
    // What it told goes with it. Started again of itself it tells the same, and nobody is bothered.
    await mark.waitFor({ state: 'detached' });
    await mark.waitFor();
    await desk.hoverSaying(/R1/);
    equal(await told.count(), 0);
    await desk.calm();
    // As often as it comes up again it dies again, until it is given up.
    await eventually(
      async () => {
        await killServer();
        return told.count();
      },
      (count) => count > 0,
      60_000,
    );
    await desk.picture('stopped');
    await told.first().getByRole('button', { name: 'Start Again' }).click();
    await eventually(
      async () => serverNow(),
      (now) => now !== undefined,
    );
    await mark.waitFor();
  });
});

/** Whether a PNG is more than one colour: an even picture packs to next to nothing. */
const isPictured = (png: Buffer): boolean => png.length > 60_000;
