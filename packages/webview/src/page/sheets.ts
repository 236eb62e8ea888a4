/** Styles for a tree of its own; unlike elements they are no matter of the page's policy. */
export const sheetsOf = (...texts: readonly string[]): CSSStyleSheet[] =>
  texts.map((text) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(text);
    return sheet;
  });
