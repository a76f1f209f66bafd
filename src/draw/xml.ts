const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

/** Text as it may stand in an XML element, or in an attribute between double quotes (XML 1.0, section 2.4). */
export const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (sign) => ENTITIES[sign] as string);
