import { Temporal } from 'temporal-polyfill';
import type { Drawing } from '../../draw/drawing.js';
import { collarOn } from '../../draw/message/collar.js';
import { dryBandage } from '../../draw/message/dry-bandage.js';
import { eatingHay } from '../../draw/message/hay.js';
import type { HomeCase } from '../../facts/case-facts.js';
import type { FigureBlock, Said } from '../handout.js';
import type { Language } from '../language.js';
import { isBandaged } from './bandaged.js';
import type { OwnerSection } from './owner-sheet.js';

/** The one thing to remember: what would do most harm if it were forgotten. */
export const firstThing: OwnerSection = (facts, language) => [
  {
    kind: 'callout',
    tone: 'first',
    title: language.owner.text('first.title'),
    said: [mostImportant(facts, language)],
    ...pictured(facts, language),
  },
];

type Message = 'rabbit' | 'mouth' | 'open' | 'bare' | 'collar' | 'rest';

/** What would do most harm if it were forgotten. */
export function mostImportantIs({ patient, wound, home, plan }: HomeCase): Message {
  // A rabbit's gut stops within a day of not eating; no wound is as urgent (common practice).
  if (patient.species.value === 'rabbit') return 'rabbit';
  if (wound.mouth && plan.softUntil) return 'mouth';
  if (isBandaged(wound)) return 'open';
  if (wound.bare && home.collarUntil.value === null) return 'bare';
  return home.collarUntil.value !== null ? 'collar' : 'rest';
}

function mostImportant(facts: HomeCase, language: Language): Said {
  const { owner, clock } = language;
  const { identity, home, plan } = facts;
  const name = { patient: identity.patientName };
  switch (mostImportantIs(facts)) {
    case 'rabbit':
      return owner.say('first.rabbit', name, 'patient.species');
    case 'mouth': {
      const date = clock.day(plan.softUntil?.value as string);
      return owner.say('first.mouth', { ...name, date }, 'plan.softUntil');
    }
    case 'open':
      return owner.say('first.open', name, 'wound.healing');
    case 'bare':
      return owner.say('first.bare', name, 'wound.bare');
    case 'collar': {
      const date = clock.day(home.collarUntil.value as string);
      return owner.say('first.collar', { ...name, date }, 'home.collarUntil');
    }
    case 'rest': {
      return calm(facts, language);
    }
  }
}

/** Strict rest, and from when on the patient may run: rest slackens step by step, and its end is not yet that day. */
function calm({ identity, home, plan }: HomeCase, { owner, clock }: Language): Said {
  const last = home.restUntil.value;
  const full = plan.fullFrom.value;
  const next = Temporal.PlainDate.from(last).add({ days: 1 }).toString();
  return owner.say(
    'first.rest',
    {
      patient: identity.patientName,
      date: clock.day(last),
      running: full === null ? 'asked' : full > next ? 'later' : 'next',
      full: full === null ? '' : clock.day(full),
    },
    'home.restUntil',
    'plan.fullFrom',
  );
}

/** What the message asks for as a picture; nothing where none shows it. */
function pictured(facts: HomeCase, { owner }: Language): { picture?: FigureBlock } {
  const message = mostImportantIs(facts);
  const drawing = drawingOf(message, facts);
  if (!drawing) return {};
  const species = facts.patient.species.value;
  return {
    picture: {
      kind: 'figure',
      name: 'message',
      figure: { kind: 'drawing', drawing },
      caption: owner.say(`first.picture.${message}.caption`),
      alternative: owner.text(`first.picture.${message}.shows`, { species }),
    },
  };
}

function drawingOf(message: Message, { patient }: HomeCase): Drawing | null {
  const species = patient.species.value;
  switch (message) {
    case 'rabbit':
      return eatingHay();
    case 'open':
      return dryBandage();
    case 'collar':
      // A rabbit's message is another one.
      return species === 'rabbit' ? null : collarOn(species);
    case 'mouth':
    case 'bare':
    case 'rest':
      return null;
  }
}
