/**
 * What the page does beyond being read: hover and focus show a dot's design, a click or Enter opens its card, arrow keys
 * walk along the front, column heads sort. Plain DOM; texts enter as text, never as markup. Without it every link still
 * leads to the design's row in the table.
 */
export const PAGE_SCRIPT = `'use strict';
(() => {
const data = JSON.parse(document.getElementById('front-data').textContent);
const rowOf = new Map(data.designs.map((design, row) => [String(design), row]));
const PREFIX = '#design-';
const make = (name, text, className) => {
  const element = document.createElement(name);
  if (text !== undefined) element.textContent = text;
  if (className) element.className = className;
  return element;
};
const numberText = (value) => {
  if (typeof value === 'string') return value;
  const rounded = Number(value.toPrecision(4));
  const size = Math.abs(rounded);
  const plain = size === 0 || (size >= 1e-3 && size < 1e6);
  return (plain ? String(rounded) : powerText(rounded)).replace('-', '\\u2212');
};
const powerText = (value) => {
  const [mantissa, exponent] = value.toExponential().split('e');
  const digits = '\\u2070\\u00b9\\u00b2\\u00b3\\u2074\\u2075\\u2076\\u2077\\u2078\\u2079';
  const raised = exponent.replace('+', '').replace('-', '\\u207b').replace(/\\d/g, (d) => digits[d]);
  return mantissa + ' \\u00d7 10' + raised;
};

// cards
const dialog = document.getElementById('card');
const title = document.getElementById('card-title');
const body = document.getElementById('card-body');
const [before, after] = ['card-before', 'card-after'].map((id) => document.getElementById(id));
let open = 0;
const show = (row) => {
  open = row;
  const design = data.designs[row];
  title.textContent = 'Design ' + design + (data.letters[row] ? ' (' + data.letters[row] + ')' : '');
  body.replaceChildren();
  const drawing = document.querySelector('#rig-' + design + ' svg') ??
    document.getElementById('drawing-' + design)?.content.firstElementChild;
  if (drawing) {
    const frame = make('div', undefined, 'drawing');
    frame.append(drawing.cloneNode(true));
    body.append(frame);
  }
  let group = null;
  let list = null;
  data.columns.forEach((column, c) => {
    const cell = data.cells[c][row];
    if (cell === null || cell === '') return;
    if (column.group !== group) {
      group = column.group;
      list = make('dl');
      body.append(make('h3', group), list);
    }
    const pair = make('div');
    const value = numberText(cell) + (column.unit && typeof cell === 'number' ? ' ' + column.unit : '');
    pair.append(make('dt', column.label), make('dd', value));
    list.append(pair);
  });
  before.disabled = row === 0;
  after.disabled = row === data.designs.length - 1;
  if (!dialog.open) dialog.showModal();
  dialog.scrollTop = 0;
};
before.addEventListener('click', () => show(open - 1));
after.addEventListener('click', () => show(open + 1));
document.getElementById('card-close').addEventListener('click', () => dialog.close());
const linkOf = (event) => event.target.closest?.('a[href^="' + PREFIX + '"]') ?? null;
const designOf = (link) => link.getAttribute('href').slice(PREFIX.length);
document.addEventListener('click', (event) => {
  const link = linkOf(event);
  const row = link && rowOf.get(designOf(link));
  if (row === undefined || row === null) return;
  event.preventDefault();
  hide();
  show(row);
});

// hover and focus
const hover = document.getElementById('hover');
const hide = () => hover.classList.remove('shown');
const describe = (link) => {
  const text = link.getAttribute('aria-label');
  if (!text) return;
  hover.textContent = text;
  hover.classList.add('shown');
  const dot = link.getBoundingClientRect();
  const box = hover.getBoundingClientRect();
  const left = Math.min(Math.max(8, dot.left + dot.width / 2 - box.width / 2), innerWidth - box.width - 8);
  const above = dot.top - box.height - 8;
  hover.style.left = left + 'px';
  hover.style.top = (above < 8 ? dot.bottom + 8 : above) + 'px';
};
for (const chart of document.querySelectorAll('figure:has(svg[role=group])')) {
  // listeners sit on the figure: an SVG that listens for focus takes some itself
  // along the chart, whatever is drawn over what
  const left = new Map([...chart.querySelectorAll('a')].map((link) => [link, link.getBoundingClientRect().x]));
  const links = [...left.keys()].sort((a, b) => left.get(a) - left.get(b));
  links.forEach((link, i) => link.setAttribute('tabindex', i === 0 ? '0' : '-1'));
  chart.addEventListener('pointerover', (event) => {
    const link = linkOf(event);
    if (link) describe(link); else hide();
  });
  chart.addEventListener('pointerleave', hide);
  chart.addEventListener('focusin', (event) => {
    const link = linkOf(event);
    if (!link) return;
    for (const other of links) other.setAttribute('tabindex', other === link ? '0' : '-1');
    describe(link);
  });
  chart.addEventListener('focusout', hide);
  chart.addEventListener('keydown', (event) => {
    const at = links.indexOf(linkOf(event));
    const to = { ArrowRight: at + 1, ArrowUp: at + 1, ArrowLeft: at - 1, ArrowDown: at - 1, Home: 0, End: links.length - 1 }[event.key];
    if (event.key === 'Escape') hide();
    if (at < 0 || to === undefined) return;
    event.preventDefault();
    links[Math.min(links.length - 1, Math.max(0, to))].focus();
  });
}

// sorting
for (const table of document.querySelectorAll('table.sortable')) {
  const rows = [...table.tBodies[0].rows];
  const keys = (c) => rows.map((row) => {
    const text = row.cells[c].dataset.value ?? row.cells[c].textContent;
    const number = Number(text);
    return text === '' || Number.isNaN(number) ? text : number;
  });
  const heads = [...table.tHead.rows[0].cells];
  heads.forEach((head, c) => head.querySelector('button')?.addEventListener('click', () => {
    const down = head.getAttribute('aria-sort') === 'ascending';
    const key = keys(c);
    const order = [...rows.keys()].sort((a, b) => {
      const [x, y] = [key[a], key[b]];
      if (x === y) return a - b;
      // empty cells come last either way
      if (x === '' || y === '') return x === '' ? 1 : -1;
      const less = typeof x === 'number' && typeof y === 'number' ? x < y : String(x) < String(y);
      return less !== down ? -1 : 1;
    });
    heads.forEach((other) => other.removeAttribute('aria-sort'));
    head.setAttribute('aria-sort', down ? 'descending' : 'ascending');
    table.tBodies[0].append(...order.map((i) => rows[i]));
  }));
}
})();
`;
