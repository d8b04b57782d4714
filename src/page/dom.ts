// Elements without innerHTML: what comes from a bench file is text and nothing else.
type Attributes = Record<string, string | number | boolean | ((e: never) => void) | undefined>;
type Child = Node | string | null | undefined | false;

function dressed<T extends Element>(node: T, attributes: Attributes, children: Child[]): T {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    if (typeof value === 'function') node.addEventListener(name.slice(2).toLowerCase(), value as EventListener);
    else node.setAttribute(name, value === true ? '' : String(value));
  }
  node.append(...children.filter((c): c is Node | string => c !== null && c !== undefined && c !== false));
  return node;
}

export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  return dressed(document.createElement(tag), attributes, children);
}

export function s(tag: string, attributes: Attributes = {}, ...children: Child[]): SVGElement {
  return dressed(document.createElementNS('http://www.w3.org/2000/svg', tag), attributes, children);
}

/** Something on the drawing that can be tapped, or reached by Tab and Enter. `key` stays when its words change. */
export function tappable(node: SVGElement, label: string, act: (e: Event) => void, key?: string): SVGElement {
  node.setAttribute('data-key', key ?? label.split(':')[0] ?? '');
  node.setAttribute('role', 'button');
  node.setAttribute('tabindex', '0');
  node.setAttribute('aria-label', label);
  node.classList.add('tap');
  node.addEventListener('click', (e) => {
    e.stopPropagation();
    act(e);
  });
  node.addEventListener('keydown', (e) => {
    if (e instanceof KeyboardEvent && (e.key === 'Enter' || e.key === ' ')) {
      e.preventDefault();
      act(e);
    }
  });
  return node;
}

/** The drawing is made anew with every change: finds what lies there now in place of this. */
export function found_again(node: Element | null): () => HTMLElement | null {
  const name_of = (n: Element) => n.getAttribute('data-key') ?? n.getAttribute('aria-label') ?? n.textContent;
  const alike = () =>
    [...document.querySelectorAll<HTMLElement>('#page button, #page .tap, #page textarea')].filter(
      (n) => name_of(n) === name,
    );
  const name = node && name_of(node);
  const at = node ? alike().indexOf(node as HTMLElement) : -1;
  return () => {
    if (node?.isConnected) return node as HTMLElement;
    return at < 0 ? null : (alike()[at] ?? alike()[0] ?? null);
  };
}

let spoken: HTMLElement | undefined;
/** For those who listen to the page. */
export function say(text: string): void {
  spoken ??= document.body.appendChild(h('div', { 'aria-live': 'polite', class: 'unseen' }));
  spoken.textContent = text;
}
