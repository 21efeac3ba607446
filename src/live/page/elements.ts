/** A place of the page that its frame has. */
export function place<E extends HTMLElement = HTMLElement>(id: string): E {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found as E;
}

export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
}

const drawn = new WeakMap<Element, string>();

/** Markup of this program into a place, unless it stands there already. */
export function draw(element: Element, markup: string): void {
  if (drawn.get(element) === markup) return;
  drawn.set(element, markup);
  element.innerHTML = markup;
}

export function write(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}
