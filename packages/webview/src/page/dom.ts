/** Elements made from plain words: text is always text, never markup. */
type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

function dress(element: Element, attributes: Attributes, children: readonly (Node | string)[]) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    element.setAttribute(name, value === true ? '' : String(value));
  }
  element.append(...children);
}

export function make<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[Tag] {
  const element = document.createElement(tag);
  dress(element, attributes, children);
  return element;
}

export function draw<Tag extends keyof SVGElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[Tag] {
  const element = document.createElementNS('http://www.w3.org/2000/svg', tag);
  dress(element, attributes, children);
  return element;
}

/** Whether the reader asked for things not to move. */
export const isStill = (): boolean =>
  document.body.classList.contains('vscode-reduce-motion') ||
  matchMedia('(prefers-reduced-motion: reduce)').matches;
