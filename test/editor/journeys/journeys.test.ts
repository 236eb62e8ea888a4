import { equal, match, ok } from 'node:assert/strict';
import { isServerUp, killServer } from './server-process.ts';
import { closeBrowser, type Desk, eventually, lineOf, openDesk, textOf } from './support.ts';

let desk: Desk;

/** The part of the drawing that the window shows, as the preview says it. */
const seen = (): Promise<string> =>
  desk
    .preview()
    .locator('.picture svg')
    .first()
    .evaluate((svg) => svg.getAttribute('viewBox') ?? '');

const openDiagram = async (): Promise<void> => {
  await desk.command('Setwright: Open Diagram to the Side');
  await desk.symbol('V3').waitFor();
};

/** Back to the text, with the focus in it. */
const toText = async (): Promise<void> => {
  await desk.intoText();
};

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
    await desk.command('Show or Focus Hover');
    const hover = desk.page.locator('.monaco-hover:not(.hidden)').first();
    await hover.waitFor();
    match((await hover.textContent()) ?? '', /R1/);
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
    await eventually(
      async () => {
        const words = (await chosen.textContent()) ?? '';
        if (!/A\+/.test(words)) await desk.page.keyboard.press('ArrowDown');
        return words;
      },
      (words) => /A\+/.test(words),
    );
    await desk.page.keyboard.press('Enter');
    await eventually(
      async () => desk.page.locator('.monaco-editor .view-lines').first().textContent(),
      (text) => text?.replaceAll('\u00a0', ' ').includes('from V1.grid to A+') === true,
    );
    await desk.command('File: Revert File');
  });

  it('reads the page of the check: why it matters, when it keeps silent', async () => {
    await toText();
    await desk.goTo(lineOf(textOf('grid-return-side'), 'leak R1'), 10);
    await eventually(
      async () => desk.page.locator('.monaco-editor .squiggly-warning').count(),
      (count) => count > 0,
    );
    await desk.command('Setwright: Explain This Finding');
    const read = desk.page.frameLocator('iframe.webview.ready').frameLocator('#active-frame');
    await read.locator('h1', { hasText: 'grid-return-side' }).waitFor();
    await desk.command('View: Close Editor');
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
    await desk.symbol('V3').waitFor();
    const before = await seen();
    await toText();
    const text = textOf('five-tube-trf');
    const line = lineOf(text, 'condenser C6');
    await desk.goTo(line, (text.split('\n')[line - 1] ?? '').length + 1);
    await desk.page.keyboard.press('Enter');
    await desk.page.keyboard.type('condenser C7 .0005 mfd from V3.plate to GND', { delay: 5 });
    await desk.symbol('C7').waitFor();
    const scale = (box: string): number => Number(box.split(' ')[2]);
    // A drawing that grew may move; its scale may not change.
    ok(Math.abs(scale(await seen()) - scale(before)) < 0.5, `${before} became ${await seen()}`);
    await desk.picture('typed');
  });

  it('sees the last good picture, marked, while a line is half written', async () => {
    // Away with the list of suggestions, which Enter would take from.
    await desk.page.keyboard.press('Escape');
    await desk.page.keyboard.press('Enter');
    await desk.page.keyboard.type('condenser C8 from @', { delay: 5 });
    const state = desk.preview().getByRole('status');
    await eventually(
      async () => state.textContent(),
      (words) => words?.includes('last good picture') === true,
    );
    await desk.symbol('C7').waitFor();
    await desk.picture('stale');
    await desk.command('File: Revert File');
    await desk.symbol('C7').waitFor({ state: 'detached' });
    await state.waitFor({ state: 'hidden' });
  });

  it('clicks a symbol and lands on its line', async () => {
    await desk.preview().getByRole('button', { name: 'Show the whole' }).click();
    await desk.symbol('C4').click();
    const wanted = lineOf(textOf('five-tube-trf'), 'condenser C4');
    await eventually(desk.cursor, ({ line }) => line === wanted);
  });

  it('hovers a symbol and reads what the editor says of it', async () => {
    await desk.symbol('R3').hover();
    const card = desk.preview().getByRole('tooltip');
    await card.waitFor();
    match((await card.textContent()) ?? '', /R3/);
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
    await desk.command('File: Revert File');
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
    await desk.command('View: Close Editor');
  });

  it('turns to the dial chart and back', async () => {
    await desk.preview().getByRole('tab', { name: 'Dials' }).click();
    await desk.preview().locator('td').first().waitFor();
    await desk.picture('dials');
    await desk.preview().getByRole('tab', { name: 'Diagram' }).click();
    await desk.symbol('V3').waitFor();
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
    const zoomIn = desk.preview().getByRole('button', { name: 'Zoom in' });
    await zoomIn.click();
    await zoomIn.click();
    const before = await eventually(seen, () => true);
    await Promise.all([
      desk.page.waitForEvent('domcontentloaded'),
      desk.command('Developer: Reload Window'),
    ]);
    await desk.page.locator('.monaco-workbench .part.editor').waitFor();
    await desk.symbol('V3').waitFor({ timeout: 40_000 });
    const pressed = desk.preview().getByRole('button', { name: 'Period symbols' });
    equal(await pressed.getAttribute('aria-pressed'), 'true');
    const [x, y] = before.split(' ').map(Number);
    const [nowX, nowY] = (await seen()).split(' ').map(Number);
    ok(Math.abs((x ?? 0) - (nowX ?? 0)) < 2 && Math.abs((y ?? 0) - (nowY ?? 0)) < 2, before);
    await desk.picture('reloaded');
  });

  it('begins a new set from a pattern', async () => {
    await desk.command('Setwright: New Set from a Pattern');
    await desk.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Crystal' }).click();
    await eventually(
      async () =>
        desk.page.locator('.editor-group-container.active .view-lines').first().textContent(),
      (text) => text?.includes('receiver') === true,
    );
  });

  it('keeps the drawing as SVG and as PNG', async () => {
    await desk.open('two-tube');
    await desk.command('Setwright: Export Drawing');
    await desk.page
      .locator('.quick-input-list .monaco-list-row', { hasText: 'white paper' })
      .click();
    await eventually(
      async () => desk.page.locator('.quick-input-widget input[type=text]').inputValue(),
      (path) => path.endsWith('two-tube.svg'),
    );
    await desk.page.keyboard.press('Enter');
    await eventually(
      async () => desk.page.locator('.explorer-folders-view').textContent(),
      (files) => files?.includes('two-tube.svg') === true,
    );
  });

  it('goes on when the server dies, and is told when it dies again and again', async () => {
    await desk.open('grid-return-side');
    const line = lineOf(textOf('grid-return-side'), 'leak R1');
    await desk.goTo(line, 10);
    const told = desk.page.locator('.notification-toast', {
      hasText: 'Setwright: The language server',
    });
    ok(killServer() > 0, 'there was a server');
    // Started again of itself, it tells what it told before, and nobody is bothered.
    await eventually(
      async () => isServerUp(),
      (up) => up,
    );
    await desk.command('Show or Focus Hover');
    await desk.page.locator('.monaco-hover:not(.hidden)', { hasText: 'R1' }).first().waitFor();
    equal(await told.count(), 0);
    await desk.calm();
    await eventually(
      async () => {
        killServer();
        // Some deaths come while it is still starting, and are told in another way.
        await desk.page.waitForTimeout(700);
        return told.count();
      },
      (count) => count > 0,
      40_000,
    );
    await desk.picture('stopped');
    await told.getByRole('button', { name: 'Start Again' }).click();
    await eventually(
      async () => isServerUp(),
      (up) => up,
    );
  });
});
