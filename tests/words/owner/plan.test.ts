import { describe, expect, it } from 'vitest';
import {
  ACTIVITIES,
  BARE_LOOKS,
  JOINED_LOOKS,
  MOUTH_LOOKS,
  OPEN_LOOKS,
} from '../../../src/care/plan.js';
import type { HomeCase } from '../../../src/facts/case-facts.js';
import { FIRST_MEALS, FOODS, SLOWER_HEALING, SPECIES } from '../../../src/record/vocabulary.js';
import type { Block } from '../../../src/words/handout.js';
import { readText, textOf } from '../../../src/words/handout-text.js';
import type { Language } from '../../../src/words/language.js';
import { ownerSheet } from '../../../src/words/owner/owner-sheet.js';
import { plan } from '../../../src/words/owner/plan.js';
import { callNow, tellLater } from '../../../src/words/owner/warning-signs.js';
import { demo } from '../../facts/demo.js';

const languages = [...demo.content.languages.values()];
const of = (name: string): HomeCase => {
  const found = demo.cases.find((one) => one.name === name);
  if (!found) throw new Error(`There is no case ${name}.`);
  return found.facts;
};
const english = demo.content.languages.get('en') as Language;
const told = (blocks: readonly Block[]) => textOf(blocks).replaceAll('\u00a0', ' ');

/** The steps of the plan as text. */
function steps(facts: HomeCase, language = english): string[] {
  const list = plan(facts, language).find((block) => block.kind === 'list');
  if (list?.kind !== 'list') throw new Error('The plan is a list.');
  return list.items.map((said) => readText(said).replaceAll('\u00a0', ' '));
}

describe('the plan in words', () => {
  it('tells Juniper’s days, counted by hand from March 10', () => {
    expect(steps(of('juniper'))).toEqual([
      'Tue, Mar 10: Rest indoors. Go out only for the toilet, on a leash. Normal: a thin line, maybe pink or bruised.',
      'From Wed, Mar 11: Toilet walks only, on a leash. No stairs, no play. Usual meals if food stays down. Normal: some swelling, a pink drop.',
      'From Fri, Mar 13: Short, calm walks on a leash. No play. Normal: less swelling, yellow-green bruises.',
      'From Tue, Mar 17: As before. Normal: dry crusts, some itch.',
      'From Fri, Mar 20: Collar on until Tue, Mar 24. Then off, if the wound is closed. Normal: a flat, dry, pale pink line.',
      'From Wed, Mar 25: Longer walks on a leash, a little more each day. Baths are fine. Normal: a thin line that fades, new fur.',
      'From Tue, Mar 31: Running, jumping, swimming and play are fine again.',
    ]);
  });

  it('names no day twice where collar or soft food end on the day on which a step begins', () => {
    const juniper = of('juniper');
    const until = (day: string, soft: string): HomeCase => ({
      ...juniper,
      home: { ...juniper.home, collarUntil: { value: day, how: '', from: [] } },
      plan: { ...juniper.plan, softUntil: { value: soft, how: '', from: [] } },
    });
    const spanish = demo.content.languages.get('es') as Language;
    // The step of March 20 lasts for days, that of March 10 for one.
    const ended = until('2026-03-20', '2026-03-11');
    expect(steps(ended)).toContain(
      'From Fri, Mar 20: Collar on until the end of that day. Then off, if the wound is closed. Normal: a flat, dry, pale pink line.',
    );
    expect(steps(ended)[1]).toContain('Only soft food on that day.');
    expect(steps(ended, spanish)[4]).toContain('Collar puesto hasta el final de ese día. Luego,');
    expect(steps(ended, spanish)[1]).toContain('Solo comida blanda ese día.');
    expect(steps(until('2026-03-10', '2026-03-12'))[0]).toContain(
      'Tue, Mar 10: Rest indoors. Go out only for the toilet, on a leash. Collar on until the end of that day.',
    );
    expect(steps(until('2026-03-21', '2026-03-12'))[1]).toContain(
      'Only soft food until Thu, Mar 12.',
    );
  });

  it('tells of soft food no more once its last day is over', () => {
    const juniper = of('juniper');
    const plan = { ...juniper.plan, softUntil: { value: '2026-03-10', how: '', from: [] } };
    expect(steps({ ...juniper, plan })[1]).toContain('Usual meals if food stays down.');
  });

  it('asks where the record dates no full activity', () => {
    expect(steps(of('pumpernickel')).at(-1)).toContain('Ask us when');
  });

  it('tells of slower steps only where they are slower', () => {
    const juniper = of('juniper');
    const course = juniper.plan.course;
    const slow = {
      ...juniper,
      plan: {
        ...juniper.plan,
        course: { ...course, value: { ...course.value, later: ['high tension'] } },
      },
    };
    expect(told(plan(slow, english))).toContain('Later steps wait longer');
    expect(told(plan(juniper, english))).not.toContain('Later steps wait longer');
  });

  it.each(languages.map((language) => [language.tag, language] as const))(
    'has words for every step, look, meal and reason, %s',
    (_, { owner }) => {
      const keys = [
        ...SPECIES.flatMap((species) =>
          ACTIVITIES.map((activity) => `plan.activity.${activity}.${species}`),
        ),
        ...SPECIES.flatMap((species) => [`plan.bath.${species}`, `different.drip.${species}`]),
        ...[...JOINED_LOOKS, ...OPEN_LOOKS, ...BARE_LOOKS, ...MOUTH_LOOKS].map(
          (look) => `plan.look.${look}`,
        ),
        ...JOINED_LOOKS.map((look) => `plan.openingLook.${look}`),
        ...FIRST_MEALS.map((meal) => `tonight.food.much.${meal}`),
        ...FOODS.map((food) => `tonight.food.kind.${food}`),
        ...['high tension', 'edges apart', ...SLOWER_HEALING].map(
          (reason) => `wound.reason.${reason}`,
        ),
      ];
      for (const key of keys) {
        expect(
          owner.text(key, { date: 'x', patient: 'x', named: 'yes' }).length,
          key,
        ).toBeGreaterThan(3);
      }
    },
  );
});

const warningSigns = (facts: HomeCase, language: Language) => [
  ...callNow(facts, language),
  ...tellLater(facts, language),
];

describe('the warning signs', () => {
  it('are ranked: a rabbit that does not eat is for now, for a dog it can wait a day', () => {
    const [rabbit] = warningSigns(of('clover'), english);
    expect(told([rabbit as Block])).toContain('No food eaten or no droppings for 12 hours');
    const [dog, later] = warningSigns(of('juniper'), english);
    expect(told([dog as Block])).not.toContain('No food');
    expect(told([later as Block])).toContain('no food for a day');
  });

  it('follow the medicine and the operation', () => {
    expect(told(warningSigns(of('tucker'), english))).toContain('Black or bloody stool');
    expect(told(warningSigns(of('bramble'), english))).toContain('Straining with no urine');
    expect(told(warningSigns(of('pumpernickel'), english))).toContain('The bandage slips');
    expect(told(warningSigns(of('saffron'), english))).not.toContain('A stitch is loose');
  });

  it('say nothing twice', () => {
    for (const language of languages) {
      for (const { facts } of demo.cases) {
        const lines = told(warningSigns(facts, language)).split('\n');
        expect(new Set(lines).size).toBe(lines.length);
      }
    }
  });
});

it('puts the parts of the sheet in the order in which an owner needs them', () => {
  const text = told(ownerSheet(of('juniper'), english, []).blocks);
  const titles = [
    'first',
    'short',
    'tonight',
    'medicines',
    'call',
    'done',
    'wound',
    'plan',
    'awaited',
  ];
  const places = [...titles, 'different', 'monitor'].map((key) =>
    text.indexOf(`${english.owner.text(`${key}.title`)}\n`),
  );
  expect(places).toEqual([...places].sort((a, b) => a - b));
  expect(places).not.toContain(-1);
});
