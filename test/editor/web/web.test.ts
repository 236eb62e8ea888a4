import { match } from 'node:assert/strict';
import {
  closeBrowser,
  type Desk,
  eventually,
  lineOf,
  openDesk,
  textOf,
} from '../journeys/support.ts';

let desk: Desk;

describe('a person with the extension in the browser itself', function () {
  this.timeout(90_000);
  before(async () => {
    desk = await openDesk();
  });
  afterEach(async function () {
    if (this.currentTest?.state === 'failed') await desk.picture('failed-web');
  });
  after(async () => {
    await desk.close();
    await closeBrowser();
  });

  it('sees the finding of a faulty set', async () => {
    await desk.open('grid-return-side');
    await desk.page.locator('.monaco-editor .squiggly-error, .squiggly-warning').first().waitFor();
    await desk.goTo(lineOf(textOf('grid-return-side'), 'leak R1'), 10);
    await desk.command('Show or Focus Hover');
    const hover = desk.page.locator('.monaco-hover:not(.hidden)').first();
    await hover.waitFor();
    match((await hover.textContent()) ?? '', /R1/);
    await desk.calm();
  });

  it('opens the diagram, and the picture follows the text', async () => {
    await desk.open('five-tube-trf');
    await desk.command('Setwright: Open Diagram to the Side');
    await desk.symbol('V3').waitFor({ timeout: 30_000 });
    const text = textOf('five-tube-trf');
    const line = lineOf(text, 'condenser C6');
    await desk.goTo(line, (text.split('\n')[line - 1] ?? '').length + 1);
    await desk.page.keyboard.press('Enter');
    await desk.page.keyboard.type('condenser C7 .0005 mfd from V3.plate to GND', { delay: 5 });
    await desk.symbol('C7').waitFor();
    await desk.picture('web');
  });

  it('begins a new set from a pattern', async () => {
    await desk.calm();
    await desk.command('Setwright: New Set from a Pattern');
    await desk.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Reflex' }).click();
    await eventually(
      async () =>
        desk.page.locator('.editor-group-container.active .view-lines').first().textContent(),
      (text) => text?.includes('receiver') === true,
    );
  });
});
