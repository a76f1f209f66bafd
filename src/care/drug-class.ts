import { type DrugClass, type Formulary, sameDrug } from '../record/formulary-schema.js';

/** Classes by generic name, for drugs that the clinic's formulary has no row for. Pharmacology, from memory, unverified. */
const KNOWN: Readonly<Partial<Record<DrugClass, readonly string[]>>> = {
  NSAID: ['carprofen', 'meloxicam', 'robenacoxib', 'firocoxib', 'deracoxib', 'grapiprant'],
  opioid: [
    ...['methadone', 'morphine', 'hydromorphone', 'fentanyl', 'buprenorphine', 'butorphanol'],
    ...['oxymorphone', 'tramadol', 'pethidine', 'meperidine'],
  ],
};

/** The class of a drug: as the clinic's formulary has it, else by its generic name; null where neither says. */
export function drugClass(formulary: Formulary | null, drug: string): DrugClass | null {
  const row = formulary?.drugs.find((other) => sameDrug(other.drug, drug));
  if (row) return row.class;
  const known = Object.entries(KNOWN).find(([, names]) =>
    names.some((name) => sameDrug(name, drug)),
  );
  return known ? (known[0] as DrugClass) : null;
}
