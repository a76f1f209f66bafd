import type { LiveCase } from '../contract.js';
import { type Saying, saying } from '../saying.js';
import { type Given, type Judged, judge } from './judge.js';
import { pointAtP } from './point-at-p.js';

/** Lets each question of a page judge its answer on the spot; nothing is kept and nothing leaves the page. */
export function mountExercises({ words, exercises, numbered }: LiveCase): void {
  const say = saying(words);
  for (const exercise of exercises) {
    const section = document.querySelector(`[data-exercise="${exercise.name}"]`);
    const form = section?.querySelector('form');
    if (!form) continue;
    const told = document.createElement('div');
    told.className = 'judged';
    told.setAttribute('role', 'status');
    form.after(told);
    if (exercise.name === 'find-the-p' && numbered) pointAtP(form, exercise, numbered, say);
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      const judged = judge(exercise, givenIn(form), say);
      tell(told, judged, say);
      point(form, judged);
    });
  }
}

function givenIn(form: HTMLFormElement): Given {
  return Object.fromEntries([...new FormData(form)].map(([name, value]) => [name, String(value)]));
}

/** The verdict by its word first, then the reasons; a colour only repeats it. */
function tell(told: HTMLElement, { right, lines }: Judged, say: Saying): void {
  told.dataset.right = String(right);
  const [first = '', ...others] = lines;
  const verdict = document.createElement('strong');
  verdict.textContent = right === null ? '' : say(right ? 'exercises.right' : 'exercises.wrong');
  const head = document.createElement('p');
  head.append(...(right === null ? [first] : [verdict, ` ${first}`]));
  const rest = others.map((line) => {
    const item = document.createElement('li');
    item.textContent = line;
    return item;
  });
  const list = document.createElement('ul');
  list.append(...rest);
  told.replaceChildren(head, ...(rest.length > 0 ? [list] : []));
}

/** Marks the fields that hold no number, and leads back to the first of them. */
function point(form: HTMLFormElement, { unread }: Judged): void {
  for (const field of form.querySelectorAll('input[type="text"]')) {
    if (unread.includes((field as HTMLInputElement).name))
      field.setAttribute('aria-invalid', 'true');
    else field.removeAttribute('aria-invalid');
  }
  form.querySelector<HTMLInputElement>('[aria-invalid]')?.focus();
}
