// The title block: the verdict word, the core's own sentence, the cautions, and what can be asked.
import { h } from './dom';
import { questions, type Asked } from './questions';
import { lay_slip } from './slip';
import type { Answer, Assessment, Diagnostic } from './types';

export const verdict_word: Record<string, string> = {
  stands: 'STANDS',
  depends: 'DEPENDS',
  carries_but: 'CARRIES BUT ...',
  do_not_load: 'DO NOT LOAD',
  not_judged: 'NOT JUDGED',
};

/** What to change and what to measure, as the core writes it under its rod. */
export function advice_of(page: string): string[] {
  const from = page
    .split('\n')
    .filter((l) => /^ {2}(Change|Measure|Or measure|Take care|Not judged)/.test(l) || /^ {13}\S/.test(l))
    .map((l) => l.trim());
  return from.filter((l) => !l.startsWith('('));
}

/** Line numbers are of use only where the file is in sight. */
export function diagnostics(list: Diagnostic[], text: string, is_file: boolean): HTMLElement | null {
  const wrong = list.filter((d) => d.severity === 'error');
  if (wrong.length === 0) return null;
  const lines = text.split('\n');
  return h(
    'div',
    { class: 'wrong', role: 'alert' },
    ...wrong
      .slice(0, 4)
      .map((d) =>
        h(
          'p',
          {},
          is_file ? h('b', {}, `Line ${d.line}: `) : null,
          d.what,
          h('code', {}, (lines[d.line - 1] ?? '').trim().slice(0, 90)),
          d.instead ? h('span', {}, 'Write, for instance: ') : null,
          d.instead ? h('code', {}, d.instead) : null,
        ),
      ),
  );
}

/** What the core warns of is no fault of the file: said, and no more. */
function warnings(list: Diagnostic[]): HTMLElement | null {
  const told = list.filter((d) => d.severity === 'warning');
  if (told.length === 0) return null;
  return h(
    'div',
    { class: 'warned', role: 'status' },
    ...told.slice(0, 3).map((d) => h('p', {}, d.instead ? `${d.what}: ${d.instead}` : d.what)),
  );
}

export interface TitleBlock {
  assessment: Assessment | null;
  answer: Answer | null;
  text: string;
  made: string; // of what, in one line
  is_file: boolean; // the file is in sight
  busy: boolean;
  first: boolean; // a first look: no verdict yet
  broken: string;
  ask: (asked: Asked, from: Event) => void;
  state: (command: string) => string;
  compare: (from: Event) => void;
  put_on: (from: Event) => void;
  put_in: (from: Event) => void;
  shop: (from: Event) => void;
}

function why(assessment: Assessment, page: string, from: Event): void {
  lay_slip(
    verdict_word[assessment.verdict] ?? '',
    from,
    h('p', { class: 'said' }, assessment.summary),
    ...advice_of(page).map((l) => h('p', {}, l)),
    h(
      'details',
      {},
      h('summary', {}, 'what was assumed'),
      h('ul', {}, ...assessment.assumptions.map((a) => h('li', {}, a))),
    ),
  ).classList.add('wide');
}

function cautions(assessment: Assessment, page: string, style = ''): HTMLElement {
  const care = advice_of(page).filter((l) => /^Take care/.test(l));
  const all = [...care.map((l) => l.replace('Take care: ', '')), ...assessment.cautions];
  return h('ul', { class: style }, ...all.map((c) => h('li', {}, c)));
}
function show_cautions(assessment: Assessment, page: string, from: Event): void {
  lay_slip('take care', from, cautions(assessment, page)).classList.add('wide');
}

/** Of a bench that can not be read nothing is known: the verdict of the one before must not be taken for its own. */
function stamp_before(word: string): HTMLElement {
  return h(
    'span',
    {
      class: 'verdict before',
      role: 'img',
      'aria-label': word ? `no verdict: ${word} was the bench before` : 'no verdict',
    },
    word ? h('s', {}, word) : '?',
  );
}

export function title_block(of: TitleBlock): HTMLElement {
  const { assessment, answer } = of;
  const wrong = diagnostics(answer?.diagnostics ?? [], of.text, of.is_file);
  const page = answer?.page ?? '';
  const word = assessment && !of.first ? (verdict_word[assessment.verdict] ?? '') : '...';
  const verdict = wrong
    ? stamp_before(assessment && !of.first ? word : '')
    : h(
        'button',
        {
          type: 'button',
          'data-key': 'verdict',
          class: `verdict ${of.first ? '' : (assessment?.verdict ?? '')}`,
          'aria-label': of.first ? 'the verdict is to come' : `${word} why? And what to do`,
          onclick: (e: Event) => {
            if (assessment && !of.first) why(assessment, page, e);
          },
        },
        word,
        assessment && !of.first ? ' ' : null,
        assessment && !of.first ? h('span', { class: 'why' }, 'why?') : null,
      );
  const caution = h(
    'p',
    { class: 'caution' },
    'A planning aid, not a certificate. ',
    assessment
      ? h(
          'button',
          { type: 'button', class: 'plain', onclick: (e: Event) => show_cautions(assessment, page, e) },
          `${assessment.cautions.length} cautions`,
        )
      : null,
  );
  const title = h('h1', {}, wrong ? 'This bench can not be checked' : (assessment?.title ?? 'Will the bench stand?'));
  const before = assessment ? `What is drawn is the one before: ${assessment.title || 'without a name'}.` : '';
  const asks = questions.map((q) =>
    h(
      'button',
      { type: 'button', class: 'ask', 'data-key': `ask ${q.command}`, onclick: (e: Event) => of.ask(q, e) },
      h('span', { class: 'long' }, q.words),
      h('span', { class: 'short', 'aria-hidden': 'true' }, q.short),
      h('i', { class: of.state(q.command) }, h('span', { class: 'unseen' }, of.state(q.command))),
    ),
  );
  asks.push(
    h(
      'button',
      { type: 'button', class: 'ask', disabled: of.first, onclick: (e: Event) => of.compare(e) },
      h('span', { class: 'long' }, 'Two of them side by side'),
      h('span', { class: 'short', 'aria-hidden': 'true' }, 'side by side'),
    ),
  );
  return h(
    'section',
    { class: of.busy ? 'title-block busy' : 'title-block', 'aria-label': 'title block' },
    h(
      'div',
      { class: 'verdict-box' },
      h(
        'div',
        {},
        title,
        of.made && !wrong ? h('p', { class: 'made' }, of.made) : null,
        h(
          'p',
          { class: 'summary', 'aria-live': 'polite' },
          of.broken || (wrong ? before : assessment?.summary || 'The core is getting ready.'),
        ),
        caution,
        assessment && !of.first ? cautions(assessment, page, 'on-paper') : null,
      ),
      verdict,
    ),
    wrong,
    warnings(answer?.diagnostics ?? []),
    h(
      'div',
      { class: 'asks' },
      h(
        'div',
        { class: 'adds' },
        h('button', { type: 'button', class: 'ask add', onclick: of.put_on }, '+ a machine'),
        h('button', { type: 'button', class: 'ask add', onclick: of.put_in }, '+ shelf, brace, bearer'),
        h('button', { type: 'button', class: 'ask add', onclick: of.shop }, 'the shop'),
      ),
      h('div', { class: 'questions' }, ...asks),
    ),
  );
}

/** What to do, as notes at the edge of the sheet. */
export function notes_block(page: string, width: number): HTMLElement | null {
  const lines = advice_of(page)
    .filter((l) => /^(Change|Measure|Or measure)/.test(l))
    .slice(0, 3);
  if (lines.length === 0 || width < 190) return null;
  const block = h(
    'section',
    { class: 'notes', 'aria-label': 'notes' },
    h('h2', {}, 'Notes'),
    ...lines.map((l) => h('p', {}, l)),
  );
  block.style.width = `${Math.min(width, 300)}px`;
  return block;
}
