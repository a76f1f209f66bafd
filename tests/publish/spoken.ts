import { Temporal } from 'temporal-polyfill';

/** Days and months as each language writes them, apart from the product's own tables and the machine's. */
const NAMES = {
  en: {
    days: 'Monday Tuesday Wednesday Thursday Friday Saturday Sunday'.split(' '),
    months:
      'January February March April May June July August September October November December'.split(
        ' ',
      ),
  },
  es: {
    days: 'lunes martes miércoles jueves viernes sábado domingo'.split(' '),
    months:
      'enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre'.split(
        ' ',
      ),
  },
} as const;

type Tongue = keyof typeof NAMES;

/** `Tuesday, March 24` or `martes, 24 de marzo`; in three letters where `short`, but for Spanish weekdays, one of which would be a month. */
export function spokenDay(date: string, tongue: Tongue, short = false): string {
  const { dayOfWeek, month, day } = Temporal.PlainDate.from(date.slice(0, 10));
  const cut = (name: string) => (short ? name.slice(0, 3) : name);
  const weekday = (tongue === 'es' ? String : cut)(NAMES[tongue].days[dayOfWeek - 1] as string);
  const named = cut(NAMES[tongue].months[month - 1] as string);
  return tongue === 'en' ? `${weekday}, ${named} ${day}` : `${weekday}, ${day} de ${named}`;
}

/** `8:05 pm`, `noon` */
export function spokenTime(local: string, tongue: Tongue): string {
  const [hour = 0, minute = 0] = local.slice(11, 16).split(':').map(Number);
  if (minute === 0 && hour === 12) return tongue === 'en' ? 'noon' : 'mediodía';
  if (minute === 0 && hour === 0) return tongue === 'en' ? 'midnight' : 'medianoche';
  return `${hour % 12 || 12}:${String(minute).padStart(2, '0')} ${hour < 12 ? 'am' : 'pm'}`;
}

/** Lower case, one space between words, `p. m.` as `pm`, and no stop that ends a sentence. */
export const plainly = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\b([ap])\.\s?m\./g, '$1m')
    .replace(/[.,](?!\d)/g, ' ')
    .replace(/\s+/g, ' ');
