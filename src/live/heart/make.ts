const SVG = 'http://www.w3.org/2000/svg';

type Attributes = Readonly<Record<string, string | number>>;

/** An element of the page with its attributes and what stands in it. */
export function html<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...inner: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  return made(document.createElement(name), attributes, inner);
}

/** The same for an element of a drawing. */
export function svg<K extends keyof SVGElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...inner: readonly (Node | string)[]
): SVGElementTagNameMap[K] {
  return made(document.createElementNS(SVG, name), attributes, inner);
}

function made<E extends Element>(
  element: E,
  attributes: Attributes,
  inner: readonly (Node | string)[],
): E {
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...inner);
  return element;
}
