import { describe, expect, it } from 'vitest';
import { demandGlyphs, type Face, faces } from '../../src/publish/fonts.js';

describe('the faces', () => {
  it.each(Object.keys(faces) as Face[])('%s has what a record needs', (face) => {
    const needed = 'ÁÉÍÓÚÜÑáéíóúüñ¿¡«» μ≥≤−½°×·–—…‘’“” \u00a0 0123456789.,:;!?%()/+=<>&@#';
    expect(() => demandGlyphs(face, needed)).not.toThrow();
  });

  it.each(['→', '☐', '₂', '\u00b5', '\u2011', '😀', '\t'])('refuse %j by name', (character) => {
    const code = `U+${character.codePointAt(0)?.toString(16).toUpperCase().padStart(4, '0')}`;
    expect(() => demandGlyphs('regular', `dose ${character} here`)).toThrow(code);
    expect(() => demandGlyphs('regular', `dose ${character} here`)).toThrow('here');
  });
});
