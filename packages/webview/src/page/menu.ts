import { make } from './dom.ts';

/** A button that opens a short list of things to do. */
export function menuButton(
  words: string,
  title: string,
  items: readonly { readonly words: string; readonly does: () => void }[],
): HTMLElement {
  const button = make(
    'button',
    { type: 'button', title, 'aria-haspopup': 'menu', 'aria-expanded': 'false' },
    words,
  );
  const entries = items.map((item) =>
    make('button', { type: 'button', role: 'menuitem', tabindex: -1 }, item.words),
  );
  const list = make('div', { class: 'menu', role: 'menu', hidden: true }, ...entries);
  list.setAttribute('aria-label', title);
  const element = make('div', { class: 'menu-holder' }, button, list);
  const open = (on: boolean): void => {
    list.hidden = !on;
    button.setAttribute('aria-expanded', `${on}`);
    if (on) entries[0]?.focus();
  };
  button.addEventListener('click', () => open(list.hidden));
  for (const [index, entry] of entries.entries()) {
    entry.addEventListener('click', () => {
      open(false);
      button.focus();
      items[index]?.does();
    });
  }
  element.addEventListener('keydown', (event) => {
    if (list.hidden) return;
    if (event.key === 'Escape') {
      open(false);
      button.focus();
      return;
    }
    const at = entries.indexOf(document.activeElement as HTMLButtonElement);
    const goals: Readonly<Record<string, number>> = {
      ArrowDown: at + 1,
      ArrowUp: at - 1,
      Home: 0,
      End: entries.length - 1,
    };
    const goal = goals[event.key];
    if (goal === undefined) return;
    event.preventDefault();
    entries[(goal + entries.length) % entries.length]?.focus();
  });
  element.addEventListener('focusout', (event) => {
    if (!element.contains(event.relatedTarget as Node | null)) open(false);
  });
  return element;
}
