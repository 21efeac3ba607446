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

/** What stands where: reading the page would cost more than writing. */
const drawn = new WeakMap<Element, string>();

/** Markup of this program into a place, unless it stands there already. Of what stands there only what differs is changed. */
export function draw(element: Element, markup: string): void {
  if (drawn.get(element) === markup) return;
  drawn.set(element, markup);
  const wanted = document.createElement('template');
  wanted.innerHTML = markup;
  match(element, wanted.content);
}

/** Children of the one as those of the other. */
function match(present: Node, wanted: Node): void {
  let old = present.firstChild;
  let next = wanted.firstChild;
  while (next) {
    const following = next.nextSibling;
    if (old === null) present.appendChild(next);
    else {
      const after: ChildNode | null = old.nextSibling;
      if (old.nodeName !== next.nodeName) present.replaceChild(next, old);
      else if (old instanceof Text) {
        if (old.data !== (next as Text).data) old.data = (next as Text).data;
      } else {
        matchAttributes(old as Element, next as Element);
        match(old, next);
      }
      old = after;
    }
    next = following;
  }
  while (old) {
    const after: ChildNode | null = old.nextSibling;
    old.remove();
    old = after;
  }
}

function matchAttributes(present: Element, wanted: Element): void {
  for (const { name, value } of wanted.attributes)
    if (present.getAttribute(name) !== value) present.setAttribute(name, value);
  if (present.attributes.length === wanted.attributes.length) return;
  for (const { name } of [...present.attributes])
    if (!wanted.hasAttribute(name)) present.removeAttribute(name);
}

/** Text of this program into a place, unless it stands there already. */
export function write(element: Element, text: string): void {
  if (drawn.get(element) === text) return;
  drawn.set(element, text);
  const only = element.firstChild;
  // a text that is replaced keeps its node
  if (only instanceof Text && only.nextSibling === null) only.data = text;
  else element.textContent = text;
}
