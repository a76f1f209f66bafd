import { placesMeant } from '../care/body-place.js';
import { longestIncision } from '../care/longest-incision.js';
import type { CaseText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { roundTo } from '../units/round.js';
import { asked, partOf, type Question } from './asked.js';
import type { Fact } from './fact.js';

/** Asks about a length or a place of the surgery that cannot be those of this patient and procedure. */
export const surgerySlips = (record: Located<CaseText>, weight: Fact<Kilogram>): Question[] => [
  ...tooLong(record, weight),
  ...elsewhere(record),
];

function tooLong({ value, at }: Located<CaseText>, weight: Fact<Kilogram>): Question[] {
  const length = value.surgery['incision length'];
  const most = longestIncision(weight.value);
  if (!length || (length.unit === 'cm' ? length.value * 10 : length.value) <= most) return [];
  return [
    {
      ...asked('an incision longer than the body', partOf.patient(value)),
      ...at('surgery', 'incision length'),
      found: `an incision of ${length.written} on a body of ${roundTo(weight.value, 2)} kg`,
      expected: `at most ${roundTo(most / 10, 0)} cm, generously the trunk of such a body (this tool's own limit)`,
    },
  ];
}

function elsewhere({ value, at }: Located<CaseText>): Question[] {
  const { procedure, site = '' } = value.surgery;
  const meant = placesMeant(procedure, site);
  if (meant === null) return [];
  return [
    {
      ...asked('a site that does not fit the procedure', partOf.patient(value)),
      ...at('surgery', 'site'),
      found: `the site "${site}" of a ${procedure}`,
      expected: `a site at ${meant.join(' or ')}, or one that names no other part of the body`,
    },
  ];
}
