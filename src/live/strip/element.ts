type Content = Node | string;

/** An element with attributes and content; an attribute that is `null` is left out. */
export function element<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string | null>> = {},
  ...content: readonly Content[]
): HTMLElementTagNameMap[Name] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== null) made.setAttribute(key, value);
  }
  made.append(...content);
  return made;
}
