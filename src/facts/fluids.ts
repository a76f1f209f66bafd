/** Words in the names of what is infused for its volume. Common practice: such a fluid is dosed in mL/kg. */
const FLUID_WORDS = [
  'electrolyte',
  'saline',
  'sodium chloride',
  'ringer',
  'hartmann',
  'crystalloid',
  'colloid',
  'starch',
  'gelatin',
  'plasma',
  'whole blood',
  'red cells',
  'electrolitos',
  'electrolítica',
  'suero',
  'salino',
  'salina',
  'cloruro de sodio',
  'cristaloide',
  'coloide',
  'sangre entera',
] as const;

/** Whether a name is that of a fluid, in English or Spanish; a name that is not known is a drug, whose strength is asked for. */
export const isFluid = (name: string): boolean => {
  const lower = name.toLowerCase();
  return FLUID_WORDS.some((word) => lower.includes(word));
};
