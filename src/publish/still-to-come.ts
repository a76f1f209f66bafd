import type { CaseFacts } from '../facts/case-facts.js';
import type { Place, Warning } from '../record/problem.js';

/** The day of a surgery, and where the record tells it. */
interface Dated {
  readonly facts: Pick<CaseFacts, 'surgery'>;
  readonly places: { readonly surgery: Place };
}

/**
 * Asks about records of a surgery after today: their year, month or day is a slip, as nobody has seen what they tell. It
 * rests on the day on which it is asked, so it is no fact of the case and changes nothing that is built.
 * @param today `YYYY-MM-DD` at the clinic
 */
export const stillToCome = (cases: readonly Dated[], today: string): Warning[] =>
  cases.flatMap(({ facts, places }): Warning[] => {
    const day = facts.surgery.date.value;
    if (day <= today) return [];
    return [
      {
        kind: 'a surgery that is still to come',
        ...places.surgery,
        found: `a surgery on ${day}, which is after today, ${today}`,
        expected: 'the record of a surgery that has been done',
        mend: 'Mend the date; every day and dose of the sheet follows it. Where it is right, the sheet can be approved from that day on.',
        accepted: null,
      },
    ];
  });
