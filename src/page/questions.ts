// Questions in plain words, each a command of the core, answered in its words.
import type { Bench } from './bench';
import { Engine, Stopped } from './core';
import { h, s } from './dom';
import { imperial } from './edits';
import { button, row } from './fields';
import { weight } from './scene';
import { close_slip, lay_slip } from './slip';
import { draw_in } from './told';
import type { AnswerJson, Figures, Option, Range } from './types';

const at_once = Math.max(1, Math.min(3, (navigator.hardwareConcurrency || 2) - 1));

export interface Asked {
  command: string;
  words: string;
  short: string;
}
export const questions: Asked[] = [
  { command: 'place', words: 'Can it sit here?', short: 'sit here?' },
  { command: 'ply', words: 'How thick must the top be?', short: 'how thick?' },
  { command: 'brace', words: 'Does it need a brace?', short: 'a brace?' },
  { command: 'improve', words: 'What is the smallest cure?', short: 'the cure' },
  { command: 'parts', words: 'What do I buy?', short: 'buy' },
  { command: 'prove', words: 'How do I prove it?', short: 'prove it' },
  { command: 'level', words: 'How do I level it?', short: 'level it' },
];
const words: Record<string, string> = {
  stands: 'STANDS',
  depends: 'DEPENDS',
  carries_but: 'CARRIES, BUT',
  do_not_load: 'DO NOT LOAD',
  not_judged: 'NOT JUDGED',
};

/** In the order in which they are likely asked. */
export function likely(to_cure: boolean, has_machine: boolean): string[] {
  return [...(has_machine ? ['place'] : []), 'ply', 'brace', ...(to_cure ? ['improve'] : [])];
}

const percent = (ratio: number) => (Number.isFinite(ratio) ? `${Math.round(100 * ratio)} %` : 'more than any limit');
/** What JSON has no number for is without end. */
const strengths = ({ carry, joints, sheet }: Figures): [string, number][] =>
  (
    [
      ['posts and rails', carry],
      ['joints', joints],
      ['sheets', sheet],
    ] as const
  ).map(([what, range]) => [what, range ? (range.greatest ?? Infinity) : 0]);
/** The worst of what may break or sag, of what is allowed. */
const worst_of = (f: Figures): number => Math.max(f.sag_ratio ?? 0, ...strengths(f).map(([, ratio]) => ratio));

/** Of a brace what it is for: how far it lets the top sway. */
function figures_in_words(f: Figures, imperial: boolean, is_brace: boolean): string {
  const [what, most] = strengths(f).reduce((a, b) => (b[1] > a[1] ? b : a));
  const sway = (range: Range | null) => sway_in_words(range, imperial);
  return [
    `${what} used to ${percent(most)}`,
    f.sag_ratio === null || is_brace ? '' : `sag ${percent(f.sag_ratio)}`,
    is_brace ? `along ${sway(f.sway_along)}, across ${sway(f.sway_across)} at ${imperial ? '20 lb' : '10 kg'}` : '',
    `the bench ${weight(f.mass, imperial)}`,
  ]
    .filter((w) => w !== '')
    .join(', ');
}

/** From stiff to soft joints, at the pull that the core's own page tells: N/m to mm or inches. */
function sway_in_words(range: Range | null, imperial: boolean): string {
  if (!range?.least || !range.greatest) return 'no answer';
  const pull = imperial ? 20 * 4.4482216 : 10 * 9.80665; // N, of 20 lb and 10 kg at standard gravity
  const moved = [range.greatest, range.least].map((k) => Number(((pull / k) * (imperial ? 1 / 0.0254 : 1000)).toPrecision(2)));
  return `${moved.join(' to ')} ${imperial ? 'in' : 'mm'}`;
}

/** What it fails by, whichever parts of it do. */
const sorts_of = (figures: Figures | null) =>
  [...new Set(figures?.failing.map((id) => id.split('/')[0]))].sort().join(' ');

/** What is said of the bench as it is need not be said again of each of the others. */
function option_row(
  option: Option,
  accept: (option: Option) => void,
  now: Option,
  in_words: (figures: Figures) => string,
): HTMLElement {
  const { figures } = option;
  const is_now = option === now;
  const is_new = is_now || sorts_of(figures) !== sorts_of(now.figures);
  const said = figures
    ? `${words[figures.verdict] ?? ''}${is_new ? `: ${figures.summary}` : ', like now:'} ${in_words(figures)}`
    : '';
  return h(
    'li',
    {},
    h('b', {}, is_now && !/^as it is/.test(option.name) ? `as it is: ${option.name}` : option.name),
    ' ',
    h('span', { class: 'quiet' }, option.why || said),
    option.write && !option.why && !is_now ? button('draw it in', () => accept(option), 'plain') : null,
  );
}

/** As it is now; then what stands before what does not, and of that the least bad first. */
function ranked([now, ...others]: Option[]): Option[] {
  const order = ['stands', 'carries_but', 'depends', 'not_judged', 'do_not_load'];
  const rank = (o: Option) => (o.figures ? order.indexOf(o.figures.verdict) : order.length);
  const ratio = (o: Option) => (o.figures?.verdict === 'do_not_load' ? worst_of(o.figures) : 0);
  return now ? [now, ...others.sort((a, b) => rank(a) - rank(b) || ratio(a) - ratio(b))] : [];
}

/** The core speaks of a file and its keys; here there are a drawing and "draw it in". */
function on_the_page(sentence: string): string {
  return sentence
    .replace(/ ?\bWrite: .*?(?= But then |$)/s, '')
    .replace('Where the file has it now', 'Where it is drawn now')
    .replace('where the file has it', 'where it is drawn')
    .replace(/\(([\w-]+)\/[\w-]+, ([\d.]+)\)/, '($1, $2 times the limit)')
    .replace(/ \([\w-]+\/[\w-]+(?:(?:,| and) [\w-]+\/[\w-]+)*(?: and \d+ more)?\)/, '')
    .replace('where the plan has dots', 'where the plan is blank')
    .replace('first cure what standtrue check tells', 'cure that first')
    .trim();
}

/** A top may be thick enough and the bench bad for other reasons: else one seems to speak against the other. */
function all_bad(options: Option[], answer: string[], cure: HTMLElement): HTMLElement | null {
  const is_bad = (o: Option) => o.figures?.verdict === 'do_not_load';
  if (options.length < 2 || !options.every(is_bad)) return null;
  const is_said = answer.some((sentence) => /^None of these/.test(sentence));
  return h('p', {}, is_said ? '' : 'None of these is enough for the bench as a whole. ', cure);
}

/** Wherever it may be put, there is nothing that it may do there. */
const is_barred = ({ ways }: AnswerJson) =>
  ways?.length > 0 && ways.every((w) => w.places.every((p) => p.stand === 'barred'));

/** One of several, as the one that is shown now. */
function one_of(words: string[], shown: string, choose: (words: string) => void): HTMLElement {
  const buttons = words.map((w) =>
    button(w, () => {
      press(w);
      choose(w);
    }),
  );
  const press = (now: string) =>
    buttons.forEach((b, i) => {
      b.setAttribute('aria-pressed', String(words[i] === now));
    });
  press(shown);
  return row(...buttons);
}

/** How the plan is hatched. */
function ground_key(): HTMLElement {
  const kinds = [
    ['clear', 'may stand'],
    ['care', 'with care'],
    ['barred', 'not here'],
    ['noroom', 'no room for its feet'],
  ] as const;
  return h(
    'p',
    { class: 'key' },
    ...kinds.map(([style, words]) =>
      h(
        'span',
        {},
        s(
          'svg',
          { width: 30, height: 18, 'aria-hidden': 'true' },
          s('rect', { width: 29, height: 17, x: 0.5, y: 0.5, class: `ground ${style}` }),
          s('rect', { width: 29, height: 17, x: 0.5, y: 0.5, class: 'thin' }),
        ),
        words,
      ),
    ),
    h('small', {}, 'Blank ground is where the middle of its feet may stand.'),
  );
}

/** Letters on a line of the core's page: on a phone its least. */
const columns = () => (innerWidth < 900 ? 50 : 72);
/** Their answer is the page itself: tests, turns and pieces are tables. */
const tabular = ['prove', 'level', 'parts'];

interface Found {
  answer: AnswerJson;
  page: string;
}
interface Running {
  engine: Engine;
  tell: (words: string) => void;
  answer: Promise<Found | string>;
}

export class Questions {
  /** Answers of the bench as it is now. */
  private answers = new Map<string, Found>();
  private running = new Map<string, Running>();
  private idle: Engine[] = [];
  /** Something began or ended. */
  changed: () => void = () => undefined;
  /** What is wrong with the bench as it is drawn; nothing if it stands. */
  warning: () => string = () => '';
  private shown_now: { body: HTMLElement; again: () => void } | null = null;
  constructor(
    private readonly bench: Bench,
    private readonly shown: (command: string, answer: AnswerJson, turned: boolean) => void,
    private readonly laid: (command: string, slip: HTMLElement) => void,
  ) {}

  forget(): void {
    for (const key of [...this.running.keys()]) this.drop(key);
    this.answers.clear();
    this.mark_stale();
  }

  /** An answer that lies open is of the bench before. */
  private mark_stale(): void {
    const { body, again } = this.shown_now ?? {};
    this.shown_now = null;
    if (!body?.isConnected || !again) return;
    body.prepend(
      h('p', { class: 'red', role: 'status' }, 'The bench has changed: this is of the one before.'),
      row(button('ask again', again)),
    );
  }
  answer(command: string): AnswerJson | undefined {
    return this.answers.get(`${command} `)?.answer;
  }

  /** For what nobody has asked: a core stays free for what somebody will. */
  get has_room(): boolean {
    return this.running.size < Math.max(1, at_once - 1);
  }
  state(command: string): 'working' | 'answered' | '' {
    const of = (keys: Iterable<string>) => [...keys].some((k) => k.split(' ')[0] === command);
    return of(this.answers.keys()) ? 'answered' : of(this.running.keys()) ? 'working' : '';
  }

  /** As many at a time as the computer has cores to spare; beyond that the oldest is dropped. */
  find(command: string, tell: (words: string) => void, extra: { machine?: string } = {}): Promise<Found | string> {
    const key = `${command} ${extra.machine ?? ''}`;
    const before = this.answers.get(key);
    if (before) return Promise.resolve(before);
    const same = this.running.get(key);
    if (same) {
      same.tell = tell;
      return same.answer;
    }
    const [oldest] = this.running.keys();
    if (oldest !== undefined && this.running.size >= at_once) this.drop(oldest);
    const engine = this.idle.pop() ?? new Engine();
    const running: Running = { tell, engine, answer: this.work(engine, command, key, extra, (t) => running.tell(t)) };
    this.running.set(key, running);
    const over = () => {
      if (this.running.get(key) === running) this.running.delete(key);
      this.idle.push(engine);
      this.changed();
    };
    running.answer.then(over, over);
    this.changed();
    return running.answer;
  }

  private drop(key: string): void {
    this.running.get(key)?.engine.stop();
    this.running.delete(key);
  }

  private async work(
    engine: Engine,
    command: string,
    key: string,
    extra: { machine?: string },
    tell: (words: string) => void,
  ): Promise<Found | string> {
    const text = this.bench.text;
    const got = await engine.ask(
      { command, text, file: this.bench.name, page: true, width: columns(), ...extra },
      (done, of) => tell(`${done} of ${of} tried`),
    );
    if (text !== this.bench.text) throw new Stopped();
    if (!got.answer) return got.diagnostics[0]?.what ?? got.fault ?? (got.message || 'there is no answer');
    const kept = { answer: got.answer, page: got.page ?? '' };
    this.answers.set(key, kept);
    return kept;
  }

  /** `about`: the machine that it is asked of first. */
  async ask(asked: Asked, from: Event, machines: string[], about?: string): Promise<void> {
    const status = h('p', { class: 'quiet', role: 'status' }, 'The core is working on it ...');
    const body = h('div', { class: 'answer' }, status);
    const which =
      asked.command === 'place' && machines.length > 1 && about
        ? one_of(machines, about, (m) => void this.fill(asked, body, m))
        : null;
    const slip = lay_slip(asked.words, from, which, body);
    slip.classList.add('wide');
    this.laid(asked.command, slip);
    await this.fill(asked, body, asked.command === 'place' ? about : undefined);
  }

  private async fill(asked: Asked, body: HTMLElement, machine?: string): Promise<void> {
    const status = h(
      'p',
      { class: 'quiet', role: 'status' },
      machine ? `The core tries the ${machine} all over the top ...` : 'The core is working on it ...',
    );
    body.replaceChildren(
      status,
      row(
        button('never mind', () => {
          this.drop(`${asked.command} ${machine ?? ''}`);
          body.replaceChildren(h('p', {}, 'Left.'));
        }),
      ),
    );
    try {
      const got = await this.find(
        asked.command,
        (t) => {
          status.textContent = `The core is working on it: ${t}.`;
        },
        machine ? { machine } : {},
      );
      if (typeof got === 'string') return body.replaceChildren(h('p', { class: 'red' }, got));
      this.tell(asked, got, body);
      this.shown_now = { body, again: () => void this.fill(asked, body, machine) };
    } catch (e) {
      if (!(e instanceof Stopped)) body.replaceChildren(h('p', { class: 'red' }, String(e)));
      else if (body.isConnected && status.isConnected)
        body.replaceChildren(h('p', {}, 'The bench has changed meanwhile: ask again.'));
    }
  }

  /** The first few; the others for who wants to see them. */
  private rows(options: Option[], accept: (option: Option) => void, is_brace: boolean): HTMLElement[] {
    const [now] = options;
    if (!now || options.length < 2) return [];
    const in_words = (f: Figures) => figures_in_words(f, imperial(this.bench), is_brace);
    const list = (some: Option[]) =>
      h('ul', { class: 'options' }, ...some.map((o) => option_row(o, accept, now, in_words)));
    const few = 6;
    const more = options.slice(few);
    return [
      list(options.slice(0, few)),
      ...(more.length > 0 ? [h('details', {}, h('summary', {}, `${more.length} more`), list(more))] : []),
    ];
  }

  private tell(asked: Asked, { answer, page }: Found, body: HTMLElement): void {
    const sentences = (answer.answer ?? [])
      .map(on_the_page)
      .filter((line) => line !== '')
      .map((line, i) => h('p', i === 0 ? { class: 'said' } : {}, line));
    const all = answer.options ?? [];
    const options = ['ply', 'brace'].includes(asked.command) ? ranked(all) : all;
    const asked_next = questions.find((q) => q.command === 'improve');
    const cure = () =>
      button(asked_next?.words ?? '', (e: Event) => asked_next && void this.ask(asked_next, e, []), 'plain');
    const thicker = questions.find((q) => q.command === 'ply');
    const thick = button(thicker?.words ?? '', (e: Event) => thicker && void this.ask(thicker, e, []), 'plain');
    const is_held_back = asked.command === 'place' && /may not stand|with care/.test(sentences[0]?.textContent ?? '');
    const warning = asked.command === 'parts' ? this.warning() : '';
    const accept = (option: Option) => {
      close_slip();
      draw_in(this.bench, option.name, option.write);
    };
    const ways =
      answer.ways?.length > 1 && !answer.is_alike_turned
        ? one_of(['as it stands', 'turned a quarter'], 'as it stands', (way) =>
            this.shown('place', answer, way === 'turned a quarter'),
          )
        : '';
    body.replaceChildren(
      warning ? h('p', {}, h('b', { class: 'red' }, warning), ' ', cure()) : '',
      ...sentences,
      answer.none ? h('p', {}, answer.none) : '',
      ways,
      answer.ways ? ground_key() : '',
      all_bad(options, answer.answer ?? [], cure()) ?? '',
      is_held_back || is_barred(answer) ? row(thick, cure()) : '',
      ...this.rows(options, accept, asked.command === 'brace'),
      h(
        'details',
        { ...(sentences.length === 0 || tabular.includes(asked.command) ? { open: true } : {}) },
        h('summary', {}, 'all of it'),
        h('pre', { tabindex: '0' }, page.trim()),
      ),
    );
    this.shown(asked.command, answer, false);
  }
}
