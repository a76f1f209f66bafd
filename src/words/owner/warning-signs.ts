import type { OwnerSection } from './owner-sheet.js';

/** What to act on now, and what can wait until the clinic opens. */
export const warningSigns: OwnerSection = ({ identity, patient }, { owner }) => {
  const name = { patient: identity.patientName };
  const { clinic } = identity;
  const own = `call.${patient.species.value}`;
  return [
    {
      kind: 'callout',
      tone: 'warning',
      title: owner.text('call.title'),
      said: [...owner.all('call.items', name), ...owner.all(own, name, 'patient.species')],
      telephones: [
        { label: owner.text('call.day'), number: clinic.phone },
        {
          label: owner.text('call.night', { name: clinic.emergency.name }),
          number: clinic.emergency.phone,
        },
      ],
    },
    {
      kind: 'callout',
      tone: 'note',
      title: owner.text('call.todayTitle'),
      said: owner.all('call.today', name),
    },
  ];
};
