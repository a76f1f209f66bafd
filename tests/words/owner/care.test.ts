import { describe, expect, it } from 'vitest';
import { demo } from '../../facts/demo.js';
import type { Change } from '../../record/sample.js';
import { sheetOf } from './sheet-of.js';

const SPRING: Change[] = [
  ['  date: 2026-03-09', '  date: 2026-03-07'],
  ['last given: 08:40', 'last given: 08:40\n      first: 2026-03-07 21:00'],
];
const AUTUMN: Change[] = [
  ['  date: 2026-03-09', '  date: 2026-10-31'],
  ['last given: 08:40', 'last given: 08:40\n      first: 2026-10-31 21:00'],
];
const mL = (amount: string): Change[] => [
  ['strength: 50 mg/tablet', 'strength: 1 mg/mL'],
  ['give: 1/2 tablet', `give: ${amount}`],
  ['dispensed: 3 tablets', 'dispensed: 100 mL'],
];
const layer = (from: string, to: string): Change => [from, to];
const GLUED = layer(
  'layer: skin, material: nylon, size: 4-0, pattern: simple interrupted',
  'layer: skin, material: tissue adhesive, pattern: adhesive film',
);
const CLOSED: Change = [
  '  - { date: 2026-03-19, why: stocktaking }',
  ['19', '20', '23'].map((day) => `  - { date: 2026-03-${day}, why: works }`).join('\n'),
];

describe('the owner is told, in plain words,', () => {
  it.each<[string, Change[], string, string]>([
    [
      'how the clock moves a dose in spring',
      SPRING,
      'From Sun, Mar 8 (10:00 am) on, it comes one hour later by the clock, because the clocks change. The boxes show it.',
      'Desde el domingo, 8 de mar (10:00 a.m.), toca una hora más tarde en el reloj, porque cambia la hora. Las casillas ya lo muestran.',
    ],
    [
      'how the clock moves a dose in autumn',
      AUTUMN,
      'From Sun, Nov 1 (8:00 am) on, it comes one hour earlier by the clock, because the clocks change. The boxes show it.',
      'una hora más temprano en el reloj, porque cambia la hora.',
    ],
    [
      'which syringe to use',
      mL('1.4 mL'),
      'Use the 3 mL syringe. Each small line is 0.1 mL.',
      'Use la jeringa de 3 mL. Cada línea pequeña es 0.1 mL.',
    ],
    [
      'how to cut a tablet in halves',
      [],
      'Cut the tablet into halves.',
      'Corte la tableta en mitades.',
    ],
    [
      'how to cut a tablet in quarters',
      [['give: 1/2 tablet', 'give: 1/4 tablet']],
      'Cut the tablet into quarters.',
      'Corte la tableta en cuartos.',
    ],
    [
      'whose clock counts',
      [['home:\n', 'home:\n  at home in: Europe/Madrid\n']],
      'The times here are by the clock at your home.',
      'Las horas de aquí son las del reloj de su casa.',
    ],
    [
      'what becomes of skin glue',
      [GLUED],
      'It comes off by itself after about 5 to 10 days.',
      'Se cae solo después de unos 5 a 10 días.',
    ],
    [
      'that a drain must come out, and when',
      [
        [
          '  tension: none\n',
          '  tension: none\n  drain: { what: suction drain, out after: 3 days }\n',
        ],
      ],
      'The drain comes out. Please book this visit.',
      'Se quita el drenaje. Pida cita.',
    ],
    [
      'where the stitches come out on a day that was set',
      [['  tension: none\n', '  tension: none\n  remove on: 2026-03-23\n']],
      'Stitches come out. Please book this visit.',
      'Se quitan los puntos. Pida cita.',
    ],
    [
      'where a medicine goes',
      [['route: by mouth', 'route: inside the cheek']],
      'inside the cheek',
      'dentro de la mejilla',
    ],
  ])('%s', (_, changes, english, spanish) => {
    expect(sheetOf('en', [], ...changes)).toContain(english);
    expect(sheetOf('es', [], ...changes)).toContain(spanish);
  });

  it('by whose clock a dose was given where the home has another', () => {
    const away: Change = ['home:\n', 'home:\n  at home in: Europe/Madrid\n'];
    expect(sheetOf('en', [], away)).toContain(
      'We gave a dose here on Mon, Mar 9 at 8:40 am by our clock.',
    );
    expect(sheetOf('es', [], away)).toContain(
      'el lunes, 9 de mar (8:40 a.m., hora de la clínica).',
    );
    expect(sheetOf('en', [])).toContain('We gave a dose here on Mon, Mar 9 at 8:40 am.');
  });

  it('to look at a bandage that stays on, and not at the wound below it', () => {
    const open: Change[] = [
      ['healing: edge to edge', 'healing: left open'],
      ['edge gap: 0 mm', 'edge gap: 18 mm'],
    ];
    const bandaged = sheetOf('en', [], ...open);
    expect(bandaged).toContain('Look at the bandage two times a day. Leave it on.');
    expect(bandaged).not.toContain('Look at the wound');
    const bare = sheetOf('en', [], ...open, [
      '  tension: none\n',
      '  tension: none\n  bandage: no\n',
    ]);
    expect(bare).toContain('Look at the wound two times a day. Do not wash it.');
  });

  it('to call when a wound without a collar gets licked', () => {
    const bare: Change = ['  collar: 12 days\n', ''];
    expect(sheetOf('en', [], bare)).toContain('Thimble licks or chews the wound.');
    expect(sheetOf('es', [], bare)).toContain('Thimble se lame o se muerde la herida.');
    expect(sheetOf('en', [])).not.toContain('licks or chews');
  });

  it('by its closure alone whether a wound was closed, and with what', () => {
    const procedures = [...demo.content.languages.values()].flatMap(({ procedures, tag }) =>
      ['skin lump removal', 'tooth removal', 'wound cleaning, left open'].map(
        (name) => [tag, procedures.text(`${name}.owner.done`, { patient: 'Rex' })] as const,
      ),
    );
    for (const [tag, done] of procedures) {
      expect(done, tag).not.toMatch(/closed|stitch|bandage|cerramos|puntos|venda/);
    }
  });

  it('nothing of the clock where it does not change', () => {
    expect(sheetOf('en', [])).not.toContain('clocks change');
    expect(sheetOf('en', [])).not.toContain('the clock at your home');
  });

  it('the next open day where the clinic is closed when stitches should come out', () => {
    const english = sheetOf('en', [CLOSED]);
    expect(english).toContain(
      'We are closed from Thu, Mar 19 to Mon, Mar 23, when stitches come out. This is the next open day. Call us now to book it.',
    );
    expect(english).toContain('Tue, Mar 24: We are closed');
    expect(sheetOf('es', [CLOSED])).toContain('Este es el próximo día en que abrimos.');
  });
});
