/** Words of the trade that a record may use; each has its plain-language counterpart in content/. */

export const SPECIES = ['dog', 'cat', 'rabbit', 'ferret'] as const;
export type Species = (typeof SPECIES)[number];

export const EYES = ['in the eye', 'in the left eye', 'in the right eye', 'in each eye'] as const;
export const EARS = ['in the ear', 'in the left ear', 'in the right ear', 'in each ear'] as const;

export const ROUTES = [
  'by mouth',
  'on the gums',
  'inside the cheek',
  'on the skin',
  ...EYES,
  ...EARS,
  'under the skin',
] as const;

/** Routes onto what is treated there: so little reaches the rest of the body that its signs are not watched for. Common practice. */
export const LOCAL_ROUTES: readonly string[] = ['on the skin', ...EYES, ...EARS];

export const CLINIC_ROUTES = [
  'intravenous',
  'intramuscular',
  'subcutaneous',
  'oral',
  'inhaled',
  'infiltration',
  'nerve block',
] as const;
export type ClinicRoute = (typeof CLINIC_ROUTES)[number];

export const EVENTS = [
  'premedication',
  'induction',
  'intubation',
  'ventilator on',
  'ventilator off',
  'local block',
  'first incision',
  'bleeding',
  'bleeding stopped',
  'tissue removed',
  'closure',
  'end of surgery',
  'extubation',
  'death',
  'remark',
] as const;
export type EventKind = (typeof EVENTS)[number];

/** Generic (chemistry) names only; a brand says nothing about how long the strand holds. */
export const MATERIALS = [
  'lactomer',
  'polyglytone 6211',
  'polyglactin 910',
  'poliglecaprone 25',
  'polydioxanone',
  'nylon',
  'polypropylene',
  'stainless steel staples',
  'tissue adhesive',
] as const;
export type Material = (typeof MATERIALS)[number];

/** From deep to superficial; the walls of hollow organs first, the gum of a wound in the mouth last. */
export const LAYERS = [
  'bladder',
  'stomach',
  'intestine',
  'uterus',
  'body wall',
  'muscle',
  'deep fascia',
  'under the skin',
  'within the skin',
  'skin',
  'gum',
] as const;
export type Layer = (typeof LAYERS)[number];

/** Where a wound is: what its owner can see of it, and what guards it, differ. */
export const WOUND_PLACES = ['skin', 'mouth'] as const;
export type WoundPlace = (typeof WOUND_PLACES)[number];

export const DRAINS = ['passive drain', 'suction drain'] as const;
export type Drain = (typeof DRAINS)[number];

export const PATTERNS = [
  'simple interrupted',
  'simple continuous',
  'cruciate',
  'mattress',
  'intradermal',
  'inverting',
  'staples',
  'adhesive film',
] as const;

/** Channels of `vitals.csv`, by the column title without its unit. */
export const CHANNELS = [
  'systolic',
  'diastolic',
  'mean',
  'heart rate',
  'SpO2',
  'EtCO2',
  'breaths',
  'temperature',
  'agent',
] as const;
export type ChannelName = (typeof CHANNELS)[number];

export const SLOWER_HEALING = [
  'steroids',
  'endocrine disease',
  'old age',
  'contamination',
  'movement',
] as const;

/** How much of a meal a patient gets first. */
export const FIRST_MEALS = ['a few bites', 'half a meal', 'a normal meal'] as const;
export type FirstMeal = (typeof FIRST_MEALS)[number];

export const FOODS = ['usual food', 'soft food'] as const;
export type Food = (typeof FOODS)[number];
