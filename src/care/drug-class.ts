import { type DrugClass, type Formulary, sameDrug } from '../record/formulary-schema.js';
import { nearest } from '../record/nearest.js';

/**
 * Classes by generic name in English and Spanish, for drugs that the clinic's formulary has no row for. Pharmacology, from memory, unverified,
 * but for grapiprant: its package insert of 2016 (docslib.org/doc/11773826) calls it an NSAID of the piprant class that
 * does not inhibit cyclooxygenase, and asks for a washout after other NSAIDs and corticosteroids, so it keeps company with
 * neither. A class is no dose: what stands here is checked for clashes only.
 */
const KNOWN: Readonly<Partial<Record<DrugClass, readonly string[]>>> = {
  NSAID: [
    ...['carprofen', 'meloxicam', 'robenacoxib', 'firocoxib', 'deracoxib', 'cimicoxib'],
    ...['mavacoxib', 'ketoprofen', 'flunixin', 'tolfenamic acid', 'piroxicam', 'etodolac'],
    ...['phenylbutazone', 'metamizole', 'aspirin', 'acetylsalicylic acid', 'ibuprofen'],
    ...['naproxen', 'diclofenac', 'ketorolac', 'grapiprant'],
    ...['carprofeno', 'ketoprofeno', 'flunixino', 'ácido tolfenámico', 'etodolaco'],
    ...['fenilbutazona', 'metamizol', 'aspirina', 'ácido acetilsalicílico', 'ibuprofeno'],
    ...['naproxeno', 'diclofenaco', 'ketorolaco'],
  ],
  corticosteroid: [
    ...['prednisolone', 'prednisone', 'methylprednisolone', 'dexamethasone', 'betamethasone'],
    ...['triamcinolone', 'hydrocortisone', 'cortisone', 'budesonide', 'flumethasone'],
    ...['prednisolona', 'prednisona', 'metilprednisolona', 'dexametasona', 'betametasona'],
    ...['triamcinolona', 'hidrocortisona', 'cortisona', 'budesonida', 'flumetasona'],
  ],
  opioid: [
    ...['methadone', 'morphine', 'hydromorphone', 'fentanyl', 'buprenorphine', 'butorphanol'],
    ...['oxymorphone', 'tramadol', 'pethidine', 'meperidine'],
    ...['metadona', 'morfina', 'hidromorfona', 'fentanilo', 'buprenorfina', 'butorfanol'],
    ...['oximorfona', 'petidina', 'meperidina'],
  ],
};

/**
 * The class of a drug: as the clinic's formulary has it, else by its generic name, alone or with its salt or partner
 * ("flunixin meglumine"); null where neither says.
 */
export function drugClass(formulary: Formulary | null, drug: string): DrugClass | null {
  const row = formulary?.drugs.find((other) => sameDrug(other.drug, drug));
  if (row) return row.class;
  const known = Object.entries(KNOWN).find(([, names]) =>
    names.some((name) => holdsName(drug, name)),
  );
  return known ? (known[0] as DrugClass) : null;
}

/** Whether a drug's name holds that of another, word for word. */
const holdsName = (drug: string, name: string): boolean =>
  ` ${drug
    .trim()
    .replace(/[\s,/+-]+/g, ' ')
    .toLowerCase()} `.includes(` ${name} `);

/**
 * The drug that a name may be a slip for, among the rows of the formulary and the names above; null where the name is one
 * of them, or like none.
 */
export function meantDrug(formulary: Formulary | null, drug: string): string | null {
  if (drugClass(formulary, drug) !== null) return null;
  const names = [
    ...(formulary?.drugs.map((row) => row.drug) ?? []),
    ...Object.values(KNOWN).flat(),
  ];
  return nearest(drug.trim(), names);
}
