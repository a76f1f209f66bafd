/** One way to write a day: its parts in order, and how they stand to each other. */
export interface WrittenDay {
  readonly parts: readonly string[];
  readonly as: 'words' | 'figures' | 'short year' | 'compact';
  /** Parts that must begin with a capital letter, as "may" and "march" are words too. */
  readonly capital?: readonly number[];
}

const MONTHS = {
  en: 'January February March April May June July August September October November December',
  es: 'enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre',
};
const ORDINALS =
  `first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth
  sixteenth seventeenth eighteenth nineteenth twentieth twenty-first twenty-second twenty-third twenty-fourth twenty-fifth
  twenty-sixth twenty-seventh twenty-eighth twenty-ninth thirtieth thirty-first`.split(/\s+/);
const CARDINALS_ES =
  `uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete dieciocho
  diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve
  treinta treinta_y_uno`.split(/\s+/);
/** English months, whole or short, that are words of English or Spanish as well. */
const ALSO_WORDS = new Set(['march', 'may', 'mar']);

/**
 * The ways in which people and programs write a day, in English and Spanish.
 * @param day `YYYY-MM-DD`
 */
export function writtenDays(day: string): WrittenDay[] {
  const [year, month, date] = day.split('-').map(Number) as [number, number, number];
  return [
    ...inFigures(year, month, date),
    ...inEnglish(year, month, date),
    ...inSpanish(month, date),
  ];
}

function inFigures(year: number, month: number, date: number): WrittenDay[] {
  const padded = (n: number) => String(n).padStart(2, '0');
  const both = (n: number) => [...new Set([String(n), padded(n)])];
  const [y, short, m, d] = [String(year), padded(year % 100), padded(month), padded(date)];
  const ways: WrittenDay[] = [y + m + d, d + m + y, m + d + y].map((compact) => ({
    parts: [compact],
    as: 'compact',
  }));
  for (const eachMonth of both(month)) {
    for (const eachDate of both(date)) {
      ways.push(
        { parts: [y, eachMonth, eachDate], as: 'figures' },
        { parts: [eachDate, eachMonth, y], as: 'figures' },
        { parts: [eachMonth, eachDate, y], as: 'figures' },
        { parts: [eachDate, eachMonth, short], as: 'short year' },
        { parts: [eachMonth, eachDate, short], as: 'short year' },
      );
    }
  }
  return [...ways, { parts: [short, m, d], as: 'short year' }];
}

function inEnglish(year: number, month: number, date: number): WrittenDay[] {
  const whole = MONTHS.en.split(' ')[month - 1] as string;
  const names = [...new Set([whole, whole.slice(0, 3), ...(month === 9 ? ['Sept'] : [])])];
  const ordinal = (ORDINALS[date - 1] as string).split('-');
  const suffix = ['st', 'nd', 'rd'][(date % 10) - 1];
  const figures = [
    String(date),
    String(date).padStart(2, '0'),
    `${date}${suffix === undefined || (date > 10 && date < 14) ? 'th' : suffix}`,
  ];
  const dates = [...new Set(figures)].map((figure) => [figure]);
  return names.flatMap((name) => {
    const capital = (place: number) =>
      ALSO_WORDS.has(name.toLowerCase()) ? { capital: [place] } : {};
    return [...dates, ordinal].flatMap((said): WrittenDay[] => [
      { parts: [name, ...said], as: 'words', ...capital(0) },
      { parts: [name, 'the', ...said], as: 'words', ...capital(0) },
      { parts: [...said, name], as: 'words', ...capital(said.length) },
      { parts: [...said, 'of', name], as: 'words', ...capital(said.length + 1) },
      { parts: [...said, name, String(year)], as: 'words' },
    ]);
  });
}

function inSpanish(month: number, date: number): WrittenDay[] {
  const whole = MONTHS.es.split(' ')[month - 1] as string;
  const names = [whole, whole.slice(0, 3), ...(month === 9 ? ['setiembre', 'sept'] : [])];
  const cardinal = (CARDINALS_ES[date - 1] as string).split('_');
  const said = [
    [String(date)],
    [String(date).padStart(2, '0')],
    cardinal,
    ...(date === 1 ? [['primero'], ['1º'], ['1ro']] : []),
  ];
  return said.flatMap((each) =>
    names.flatMap((name): WrittenDay[] => [
      { parts: [...each, 'de', name], as: 'words' },
      // "mar" is the sea, "ene" a letter: the short names count only with "de" before them.
      ...(name === whole
        ? [
            { parts: [...each, name], as: 'words' as const },
            { parts: [name, ...each], as: 'words' as const },
          ]
        : []),
    ]),
  );
}
