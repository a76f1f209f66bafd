import type { HomeCase } from '../../facts/case-facts.js';
import { earlierSheet, type Standing } from '../../facts/standing.js';
import type { Block } from '../handout.js';
import type { Language } from '../language.js';
import { changesBetween } from './changes.js';
import { statementsOf } from './statements.js';

/** The mark of a sheet that no veterinarian has checked as it is; null for one that is approved. */
export function draftMark({ approved, approvals }: Standing, { owner, clock }: Language) {
  const last = approvals.at(-1);
  if (approved) return null;
  return last ? owner.text('draftAgain', { date: clock.fullDay(last.on) }) : owner.text('draft');
}

/** What is new since the sheet that the owner may have at home; nothing for a first sheet. */
export function news(facts: HomeCase, language: Language, standing: Standing): Block[] {
  const { owner, clock } = language;
  const earlier = earlierSheet(standing);
  if (!earlier) return [];
  return [
    {
      kind: 'callout',
      tone: 'note',
      title: owner.text('changes.title', { date: clock.day(earlier.on) }),
      said: [
        ...changesBetween(earlier.statements, statementsOf(facts, language), language),
        ...(standing.approved ? [owner.say('changes.replaces')] : []),
      ],
    },
  ];
}

/** Who answers for the sheet. */
export function approvedBy({ approved, approvals }: Standing, { owner, clock }: Language): Block[] {
  const last = approvals.at(-1);
  if (!approved || !last) return [];
  const said = owner.say('approved', { by: last.by, date: clock.fullDay(last.on) });
  return [{ kind: 'paragraph', said }];
}
