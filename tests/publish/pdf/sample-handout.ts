import { ecgStrip } from '../../../src/draw/ecg/strip.js';
import { vitalsChart } from '../../../src/draw/vitals/chart.js';
import { chartDrawing } from '../../../src/publish/chart-drawing.js';
import type { Block, Cell, ExerciseBlock, Handout, Run, Said } from '../../../src/words/handout.js';
import { sampleStrip } from '../../draw/ecg/sample.js';
import { sampleVitals } from '../../draw/vitals/sample.js';

const said = (...runs: (string | Run)[]): Said => ({
  runs: runs.map((run) => (typeof run === 'string' ? { text: run } : run)),
  facts: [],
});
function questions(): Block[] {
  const question = (name: string, asks: ExerciseBlock['asks']): ExerciseBlock => ({
    kind: 'exercise',
    name,
    title: `Question ${name}`,
    question: [said('What do you see?')],
    figure: null,
    asks,
    answer: [said('What is there.')],
    labels: { check: 'Check', answer: 'Show' },
  });
  const options = [
    { name: 'yes', label: 'yes' },
    { name: 'no', label: 'no' },
  ];
  return [
    question('numbers', {
      kind: 'numbers',
      fields: [{ name: 'a', label: 'Beats', unit: 'beats' }],
    }),
    question('choice', { kind: 'choice', options }),
    question('each', { kind: 'each', items: [{ name: 'one', label: 'Beat 1' }], options }),
  ];
}
const cell = (text: string): Cell => ({ kind: 'said', said: [said(text)] });

/** An invented owner's sheet that holds every kind of block. */
export function sampleHandout(change: Partial<Handout> = {}): Handout {
  return {
    reader: 'owner',
    language: 'en',
    paper: 'A4',
    title: 'Looking after Juniper at home',
    lead: 'For the Okafor family, after the removal of a skin lump on 4 March 2031',
    sender: [
      'Harebell Lane Veterinary Surgery',
      '12 Harebell Lane, Thistlewick',
      'Daytime 01632 960 112',
      'Night and weekend 01632 960 118',
    ],
    draft: 'DRAFT – not yet checked by a veterinarian',
    foot: 'Questions? Call us first: 01632 960 112',
    dated: '2031-03-04',
    blocks: change.blocks ?? sampleBlocks(),
    ...change,
  };
}

const sampleBlocks = (): readonly Block[] => [
  {
    kind: 'callout',
    tone: 'first',
    title: 'The one thing to remember',
    said: [
      said(
        'Keep Juniper quiet and on a lead until ',
        { text: 'Tuesday 18 March', strong: true },
        '. Jumping can open the wound.',
      ),
    ],
  },
  { kind: 'heading', level: 2, text: 'What we did' },
  {
    kind: 'paragraph',
    said: said(
      'We took a lump the size of a grape from the skin over the left ribs. The wound is ',
      { text: '4.2 cm', strong: true },
      ' long and closed with stitches that ',
      { text: 'must be taken out', emphasis: true },
      '. Juniper woke calmly and ate a little chicken at four o’clock. You can read more about wounds on ',
      { text: 'our page on healing', href: 'https://harebell-lane.example/healing' },
      ', or ask any of us.',
    ),
  },
  {
    kind: 'pairs',
    rows: [
      ['Patient', said('Juniper, a spayed female mixed-breed dog, 6 years, 18.4 kg')],
      ['Stitches out', said({ text: 'Tuesday 18 March 2031', strong: true }, ', at 09:30')],
      ['Next meal', said('Half of a normal supper tonight; normal food from tomorrow')],
    ],
  },
  { kind: 'heading', level: 2, text: 'Medicines' },
  {
    kind: 'table',
    caption: 'Tick a box for each dose you have given',
    columns: [
      { title: 'Medicine', align: 'start', share: 30 },
      { title: 'Each dose', align: 'end', share: 16 },
      { title: 'When', align: 'start', share: 22 },
      { title: 'Wed – Fri', align: 'middle', share: 32 },
    ],
    rows: [
      [
        cell('Meloxicam 1.5 mg/mL, liquid'),
        cell('1.2 mL'),
        { kind: 'said', said: [said('once a day'), said('with food')] },
        {
          kind: 'ticks',
          days: ['Wed', 'Thu', 'Fri'].map((day) => ({ day, boxes: ['am'] })),
        },
      ],
      [
        cell('Gabapentin 100 mg, capsule'),
        cell('1'),
        cell('every 12 hours'),
        { kind: 'ticks', days: ['Wed', 'Thu'].map((day) => ({ day, boxes: ['am', 'pm'] })) },
      ],
      [
        cell('Trazodone 50 mg, tablet'),
        cell('1'),
        cell('only if he will not rest'),
        { kind: 'lines', labels: ['Dose 1', 'Dose 2', 'Dose 3'] },
      ],
    ],
  },
  {
    kind: 'callout',
    tone: 'warning',
    title: 'Call us straight away, day or night, if',
    said: [
      said('the wound bleeds for more than 5 minutes, or its edges come apart,'),
      said('Juniper vomits twice, will not eat for a day, or breathes hard at rest.'),
    ],
    telephones: [
      { label: 'Daytime', number: '01632 960 112' },
      { label: 'Night and weekend', number: '01632 960 118' },
    ],
  },
  { kind: 'heading', level: 2, text: 'Each day at home' },
  {
    kind: 'list',
    ordered: true,
    items: [
      said('Look at the wound morning and evening. A little pink is normal.'),
      said('Keep the collar on, also at night. One minute of licking can undo the stitches.'),
      said('Walk on a lead for 10 minutes, 3 times a day. No stairs, no sofa, no ball.'),
    ],
  },
  { kind: 'heading', level: 3, text: 'What you need not worry about' },
  {
    kind: 'list',
    ordered: false,
    items: [
      said('A bare patch on the front leg: we clipped it for the drip.'),
      said('A small cough for a day or two, from the breathing tube.'),
    ],
  },
  {
    kind: 'callout',
    tone: 'note',
    title: 'About the dates',
    said: [said('We counted them from the day of surgery. Ask us if a day does not suit you.')],
  },
  {
    kind: 'page',
    blocks: [
      { kind: 'heading', level: 2, text: 'How Juniper slept' },
      {
        kind: 'paragraph',
        said: said(
          'The heart beat in a steady rhythm that quickened a little with each breath in. The numbers: 1 ≤ 2, 2 ≥ 1, ½ tablet, 5 μg, 38 °C, −0.2 mV, 3 × 10.',
        ),
      },
      {
        kind: 'figure',
        name: 'heart',
        figure: { kind: 'drawing', drawing: ecgStrip(sampleStrip({ to: 6.4 })) },
        caption: said(
          { text: 'The heart’s electricity. ', strong: true },
          'Each small triangle is a beat that was counted.',
        ),
        alternative: 'Ten seconds of an electrocardiogram with 12 counted beats.',
      },
      {
        kind: 'figure',
        name: 'vitals',
        figure: {
          kind: 'drawing',
          drawing: chartDrawing(vitalsChart(sampleVitals()), { widthMm: 174, heightMm: 118 }),
        },
        caption: said(
          { text: 'The whole anesthetic. ', strong: true },
          '1 breathing tube in; 2 first cut; 3 local block; 4 fluid given; 5 gas off.',
        ),
        alternative: 'Five small panels of readings over 75 minutes.',
      },
      {
        kind: 'code',
        language: 'text',
        text: 'minutes  mean  rate\n     30    55    81\n     35    53    80\n',
      },
    ],
  },
  {
    kind: 'fold',
    title: 'All weights',
    blocks: [{ kind: 'paragraph', said: said('4.1 kg in March, 4.3 kg in June.') }],
  },
  ...questions(),
];
