/**
 * What searches and sorts the index: plain script without a library. All that it works on stands
 * in the table.
 */
export const collectionScript = `'use strict';
(() => {
  const table = document.getElementById('sets');
  if (!table) return;
  document.documentElement.classList.add('script');
  const body = table.tBodies[0];
  const search = document.getElementById('search');
  const count = document.getElementById('count');
  const nothing = document.getElementById('nothing');
  const plain = (text) => text.normalize('NFKD').replace(/\\p{M}/gu, '').toLowerCase();
  const rows = [...body.rows].map((row, place) => ({ row, place, text: plain(row.textContent) }));
  const tell = () => {
    const wanted = plain(search.value).split(/\\s+/).filter((word) => word !== '');
    let shown = 0;
    for (const { row, text } of rows) {
      const isShown = wanted.every((word) => text.includes(word));
      if (row.hidden === isShown) row.hidden = !isShown;
      if (isShown) shown += 1;
    }
    count.textContent = shown === rows.length ? rows.length + (rows.length === 1 ? ' set' : ' sets') : shown + ' of ' + rows.length + ' sets';
    table.hidden = shown === 0;
    nothing.hidden = shown > 0;
  };
  const compare = new Intl.Collator('en', { numeric: true }).compare;
  const valueOf = (row, column) => {
    const cell = row.cells[column];
    return cell.dataset.sort ?? cell.textContent;
  };
  const headings = [...table.tHead.rows[0].cells];
  const sortBy = (column) => {
    const heading = headings[column];
    const isDown = heading.getAttribute('aria-sort') === 'ascending';
    for (const each of headings) each.removeAttribute('aria-sort');
    heading.setAttribute('aria-sort', isDown ? 'descending' : 'ascending');
    const sign = isDown ? -1 : 1;
    const keyed = rows.map((each) => ({ each, key: valueOf(each.row, column) }));
    keyed.sort((a, b) => sign * compare(a.key, b.key) || a.each.place - b.each.place);
    body.append(...keyed.map(({ each }) => each.row));
  };
  for (const [column, heading] of headings.entries()) {
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = heading.textContent;
    button.addEventListener('click', () => sortBy(column));
    heading.replaceChildren(button);
  }
  let due = 0;
  search.addEventListener('input', () => {
    clearTimeout(due);
    due = setTimeout(tell, rows.length > 2000 ? 150 : 0);
  });
  search.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape' || search.value === '') return;
    search.value = '';
    tell();
  });
  document.addEventListener('keydown', (event) => {
    if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target instanceof HTMLInputElement) return;
    event.preventDefault();
    search.focus();
  });
  tell();
})();
`;
