/**
 * Every Unicode character that a TrueType file can draw, read from its `cmap` table
 * (OpenType specification, cmap subtable formats 4 and 12).
 */
export function charactersOf(font: Uint8Array): ReadonlySet<number> {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const cmap = tableOffset(view, 'cmap');
  const characters = new Set<number>();
  for (let i = 0; i < view.getUint16(cmap + 2); i++) {
    const at = cmap + view.getUint32(cmap + 4 + i * 8 + 4);
    const format = view.getUint16(at);
    if (format === 4) addSegments(view, at, characters);
    if (format === 12) addGroups(view, at, characters);
  }
  if (characters.size === 0) throw new Error('the font file maps no character in format 4 or 12');
  return characters;
}

function tableOffset(view: DataView, wanted: string): number {
  for (let i = 0; i < view.getUint16(4); i++) {
    const record = 12 + i * 16;
    const tag = String.fromCharCode(...[0, 1, 2, 3].map((k) => view.getUint8(record + k)));
    if (tag === wanted) return view.getUint32(record + 8);
  }
  throw new Error(`the font file has no ${wanted} table`);
}

function addSegments(view: DataView, at: number, characters: Set<number>): void {
  const doubled = view.getUint16(at + 6);
  for (let i = 0; i < doubled; i += 2) {
    const end = view.getUint16(at + 14 + i);
    const start = view.getUint16(at + 16 + doubled + i);
    const delta = view.getUint16(at + 16 + 2 * doubled + i);
    const rangeAt = at + 16 + 3 * doubled + i;
    const range = view.getUint16(rangeAt);
    for (let code = start; code <= end && code !== 0xffff; code++) {
      const glyph =
        range === 0
          ? (code + delta) & 0xffff
          : view.getUint16(rangeAt + range + 2 * (code - start));
      if (glyph !== 0) characters.add(code);
    }
  }
}

function addGroups(view: DataView, at: number, characters: Set<number>): void {
  for (let i = 0; i < view.getUint32(at + 12); i++) {
    const group = at + 16 + i * 12;
    for (let code = view.getUint32(group); code <= view.getUint32(group + 4); code++) {
      characters.add(code);
    }
  }
}
