import type { Choice, ExportFormat } from '../messages.ts';
import { type Page, type PageName, pageNames } from '../protocol.ts';
import { make } from './dom.ts';
import { menuButton } from './menu.ts';

/** What can be chosen above the page. */
export interface Bar {
  readonly element: HTMLElement;
  show(choice: Choice, pinned: boolean): void;
  /** Offers what this page has to choose from. */
  offer(page: Page): void;
}

export interface BarEvents {
  choose(change: Partial<Choice>): void;
  pin(pinned: boolean): void;
  keepAs(format: ExportFormat): void;
}

export const pageTitles: Readonly<Record<PageName, string>> = {
  diagram: 'Diagram',
  dials: 'Dials',
  response: 'Response',
  bench: 'Bench',
  tour: 'Tour',
  compare: 'Compare',
};

const formats: readonly { readonly format: ExportFormat; readonly words: string }[] = [
  { format: 'svg-light', words: 'SVG on white paper…' },
  { format: 'svg-dark', words: 'SVG on dark paper…' },
  { format: 'svg-transparent', words: 'SVG without paper…' },
  { format: 'png', words: 'PNG picture…' },
  { format: 'copy-picture', words: 'Copy as a picture' },
  { format: 'copy-svg', words: 'Copy as SVG text' },
];

export function bar(events: BarEvents): Bar {
  const tabs = pageTabs((page) => events.choose({ page }));
  const receiver = choiceOf('Receiver', (value) => events.choose({ receiver: Number(value) }));
  const view = choiceOf('View', (value) => events.choose({ view: value }));
  const symbols = toggle('Period symbols', 'Draw with the symbols of the 1920s', (on) =>
    events.choose({ symbols: on ? 'period' : 'modern' }),
  );
  const values = toggle('Numbers', 'Show volts, bias and bands at their parts', (on) =>
    events.choose({ values: on }),
  );
  const pin = toggle('Pin', 'Stay with this file, whichever file is being edited', events.pin);
  const menu = menuButton(
    'Keep',
    'Keep the drawing as a file or copy it',
    formats.map(({ format, words }) => ({ words, does: () => events.keepAs(format) })),
  );
  const ofDrawing = make(
    'div',
    { class: 'of-drawing' },
    view.element,
    symbols.element,
    values.element,
  );
  const element = make(
    'header',
    { class: 'bar' },
    tabs.element,
    make(
      'div',
      { class: 'choices' },
      receiver.element,
      ofDrawing,
      make('span', { class: 'spring' }),
      menu,
      pin.element,
    ),
  );
  return {
    element,
    show: (choice, pinned) => {
      tabs.select(choice.page);
      receiver.select(`${choice.receiver}`);
      view.select(choice.view);
      symbols.set(choice.symbols === 'period');
      values.set(choice.values);
      pin.set(pinned);
    },
    offer: ({ receivers, receiver: at, views, view: seen, svg }) => {
      receiver.offer(
        receivers.map((title, index) => ({
          value: `${index}`,
          words: title || `Set ${index + 1}`,
        })),
        `${at}`,
      );
      view.offer(
        views.map(({ id, title }) => ({ value: id, words: title })),
        seen,
      );
      symbols.element.hidden = views.length === 0;
      values.element.hidden = views.length === 0;
      menu.hidden = !svg;
    },
  };
}

/** The pages along a scale, with a pointer at the one that is tuned in. */
function pageTabs(choose: (page: PageName) => void) {
  const tabs = pageNames.map((page) =>
    make(
      'button',
      { type: 'button', role: 'tab', id: `tab-${page}`, 'aria-controls': 'page', tabindex: -1 },
      pageTitles[page],
    ),
  );
  for (const [index, tab] of tabs.entries()) {
    tab.addEventListener('click', () => choose(pageNames[index] ?? 'diagram'));
  }
  const element = make('div', { class: 'scale', role: 'tablist', 'aria-label': 'Pages' }, ...tabs);
  element.addEventListener('keydown', (event) => {
    const at = tabs.indexOf(document.activeElement as HTMLButtonElement);
    const goals: Readonly<Record<string, number>> = {
      ArrowRight: at + 1,
      ArrowLeft: at - 1,
      Home: 0,
      End: tabs.length - 1,
    };
    const goal = goals[event.key];
    if (goal === undefined) return;
    event.preventDefault();
    const index = (goal + tabs.length) % tabs.length;
    tabs[index]?.focus();
    choose(pageNames[index] ?? 'diagram');
  });
  return {
    element,
    select: (page: PageName) => {
      for (const [index, tab] of tabs.entries()) {
        const isIt = pageNames[index] === page;
        tab.setAttribute('aria-selected', `${isIt}`);
        tab.setAttribute('tabindex', isIt ? '0' : '-1');
      }
    },
  };
}

/** A list to choose one from; not shown while there is nothing to choose. */
function choiceOf(label: string, choose: (value: string) => void) {
  const select = make('select', { 'aria-label': label, title: label });
  select.addEventListener('change', () => choose(select.value));
  const element = make('span', { class: 'choice', hidden: true }, select);
  let offered = '';
  return {
    element,
    select: (value: string) => {
      select.value = value;
    },
    offer: (
      options: readonly { readonly value: string; readonly words: string }[],
      chosen: string,
    ) => {
      const now = JSON.stringify(options);
      if (now !== offered) {
        offered = now;
        select.replaceChildren(
          ...options.map(({ value, words }) => make('option', { value }, words)),
        );
      }
      select.value = chosen;
      element.hidden = options.length < 2;
    },
  };
}

function toggle(words: string, title: string, change: (on: boolean) => void) {
  const element = make('button', { type: 'button', class: 'toggle', title }, words);
  const set = (on: boolean): void => element.setAttribute('aria-pressed', `${on}`);
  set(false);
  element.addEventListener('click', () => {
    change(element.getAttribute('aria-pressed') !== 'true');
  });
  return { element, set };
}
