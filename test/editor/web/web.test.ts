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
    await desk.hoverSaying(/R1.*A\+/);
    await desk.calm();
  });

  it('opens the diagram, and the picture follows the text', async () => {
    await desk.open('five-tube-trf');
    await desk.command('Setwright: Open Diagram to the Side');
    await desk.symbol('V3').waitFor({ timeout: 30_000 });
    await desk.goTo(lineOf(textOf('five-tube-trf'), 'condenser C6'));
    await desk.typeLine('condenser C7 .0005 mfd from V3.plate to GND');
    await desk.symbol('C7').waitFor();
    await desk.picture('web');
  });

  it('begins a new set from a pattern', async () => {
    await desk.calm();
    await desk.command('Setwright: New Set from a Pattern');
    await desk.choose('Reflex');
    const fresh = desk.page.locator('.monaco-editor.focused[data-uri^="untitled:"] .view-lines');
    await eventually(
      async () => fresh.textContent(),
      (text) => text?.includes('receiver') === true,
    );
  });
});
