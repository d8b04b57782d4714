// The page: a bench, its last good answer, and the sheet that shows both.
import { add_machine, add_part, the_shop } from './adding';
import { assume } from './assumed';
import { Bench } from './bench';
import { compare, type Kept } from './beside';
import { Carried } from './carried';
import { Engine, Stopped } from './core';
import { found_again, h, s, say } from './dom';
import { dimensions_of, edit, imperial, machine_at } from './edits';
import { drop_link } from './files';
import { Foresight } from './foresight';
import { hints, learned } from './hints';
import { written } from './lengths';
import { made_of } from './made';
import { patterns } from './marks';
import { move, move_bearer, strips } from './moving';
import { notes_of } from './notes';
import { Questions } from './questions';
import { explain, lines_of, rod, with_those_to_come, worst_of } from './rod';
import { ground, type Line, type Scene, type Thing } from './scene';
import { around_print, hears_the_window, open_link } from './outside';
import { lay_paper, on_paper } from './paper';
import type { Face } from './sheet';
import { heard } from './fields';
import { lay_beside, lay_slip } from './slip';
import { change_stored, stored_of, stored_words } from './stored';
import { Steady } from './steady';
import { title_block, verdict_word } from './title_block';
import { draw_in } from './told';
import { tools } from './tools';
import type { Answer, AnswerJson, Diagnostic, MachineDrawn } from './types';

const root = document.getElementById('page')!;
// Hatches are there whatever the sheet shows: the rod uses them too.
document.body.append(s('svg', { width: 0, height: 0, class: 'unseen', 'aria-hidden': 'true' }, patterns()));
const bench = new Bench();
const engine = new Engine();
const carried = new Carried();
const turn = { yaw: 0.55, pitch: 0.32 };
let good: Answer | null = null; // the last that could be drawn
let last: Answer | null = null; // the last of all
let checked = ''; // the text that `good` is of
let sizes: Scene['dimensions'] = null; // of the bench that is drawn
let is_first = false; // `good` is a first look: its verdict is to come
let lines: Line[] = [];
let chosen: string | null = null;
let by_hand = false; // else the line that the verdict hangs on is chosen
let to_show = false; // on a phone that line may lie outside of what is seen of the rod
let face: Face = 'sheet';
let broken = '';
let beside: Kept | null = null;
let load_plan: Scene['load_plan'] = null;
let minded: string | null = null; // the machine that was put on, moved or tapped last
const for_rod = new Steady();
const questions = new Questions(
  bench,
  (command, answer, turned) => {
    if (command === 'place') show_place(answer, turned);
    else redraw();
    foresight.look();
  },
  (command, slip) => {
    if (command === 'place') make_room(slip);
  },
);

questions.warning = () => {
  const now = is_first ? null : good?.answer;
  return now && now.verdict !== 'stands' ? `It does not stand yet: ${now.summary}` : '';
};

/** The answer speaks of the plan: on a phone they share the screen, on a desk it lies beside. */
let beside_plan: HTMLElement | null = null;
function make_room(slip: HTMLElement): void {
  const before = face;
  beside_plan = slip;
  slip.classList.add('of-plan');
  if (innerWidth < 900) face = 'plan';
  slip.addEventListener('gone', () => {
    beside_plan = null;
    if (innerWidth < 900 && face === 'plan') face = before;
    redraw();
  });
  redraw();
}

function show_place(answer: AnswerJson, turned: boolean): void {
  load_plan = { plan: answer, turned };
  if (face !== 'sheet' && face !== 'plan') face = 'plan';
  redraw();
  const plan = root.querySelector('.plan-view')?.getBoundingClientRect();
  const verdict = root.querySelector('.verdict')?.getBoundingClientRect();
  if (plan && verdict && beside_plan) lay_beside(beside_plan, plan, verdict.top);
}

const faults_of = (answer: Answer | null): Diagnostic[] =>
  (answer?.diagnostics ?? []).filter((d) => d.severity === 'error');
const told_of = (d: Diagnostic): string =>
  d.instead ? `${d.what}. Write, for instance: ${d.instead.replace(/^\w+: /, '')}` : d.what;

let is_checking = false;
/** The newest text is checked; what it overtakes is dropped. */
async function check(): Promise<void> {
  if (is_checking) return is_first ? engine.stop() : undefined; // a first look is soon there
  is_checking = true;
  for (let text = bench.text; ; text = bench.text) {
    try {
      if ((await look(text, 'first look')) && text === bench.text) {
        redraw();
        await look(text, 'drawn');
      }
    } catch (e) {
      if (!(e instanceof Stopped)) broken = `The core gave up (${String(e)}). Change something, and it tries again.`;
    }
    if (text === bench.text) break;
  }
  is_checking = false;
  redraw();
  make_ready();
  foresight.forget();
  foresight.look();
}

/** Whether there is more to know. */
async function look(text: string, extent: 'drawn' | 'first look'): Promise<boolean> {
  const begun = performance.now();
  const answer = await engine.ask({
    command: 'check',
    text,
    file: bench.name,
    picture: true,
    page: true,
    width: 1000,
    extent,
  });
  if (text !== bench.text) return false;
  const timed = extent === 'drawn' ? 'checked' : 'looked';
  document.documentElement.dataset[timed] = String(Math.round(performance.now() - begun));
  return took(answer, text, extent === 'first look');
}

/** Whether it can be drawn; what can not leaves the last good one where it is. */
function took(answer: Answer, text: string, first: boolean): boolean {
  const before = faults_of(last).map((d) => d.what);
  last = answer;
  const [wrong] = faults_of(answer);
  heard(wrong ? told_of(wrong) : null, !before.includes(wrong?.what ?? ''));
  broken = answer.fault ?? '';
  if (!answer.answer || !answer.picture || wrong) return false;
  good = answer;
  checked = text;
  sizes = dimensions_of(bench);
  assume(answer.answer.assumptions);
  is_first = first;
  const now = lines_of(answer.answer.findings, answer.page ?? '');
  lines = first ? with_those_to_come(now, lines) : now;
  if (first) return true;
  if (!by_hand || !lines.some((l) => l.group === chosen)) {
    by_hand = false;
    to_show = true;
    chosen = worst_of(lines);
  }
  say(`${verdict_word[answer.answer.verdict]}: ${answer.answer.summary}`);
  return true;
}

/** Of the machines on the top the one that was minded last, else the heaviest. */
function asked_about(): { machines: string[]; about?: string } {
  const on_top = (good?.picture?.machines ?? []).filter((m) => m.sheet === 'top');
  const about = on_top.find((m) => m.name === minded) ?? [...on_top].sort((a, b) => b.mass - a.mass)[0];
  return { machines: on_top.map((m) => m.name), about: about?.name };
}

/** The machine that is likely taken hold of next is made ready for it. */
let readying = 0;
function make_ready(): void {
  clearTimeout(readying);
  const { about } = asked_about();
  if (!about || checked !== bench.text) return carried.forget();
  readying = setTimeout(() => void carried.ready(bench.text, about), 300);
}

const foresight = new Foresight(
  questions,
  () => {
    const { answer } = good ?? {};
    if (!answer || is_first || checked !== bench.text || !engine.is_apart) return null;
    return { to_cure: answer.verdict !== 'stands', ...asked_about() };
  },
  () => redraw(),
);

const where = (m: MachineDrawn): string[] =>
  good?.picture ? machine_at(good.picture, m).map((v) => written(v, imperial(bench))) : [];

const stored_now = () => (good?.picture && good.answer ? stored_of(bench, good.picture, good.answer) : []);

function tapped(thing: Thing, from: Event): void {
  if (thing.kind === 'dimension') learned('size');
  if (thing.kind === 'machine') minded = thing.machine.name;
  if (thing.kind === 'stored') {
    const sheets = ['top', 'shelf'].filter((s) => good?.picture && ground(good.picture, s));
    return change_stored(bench, stored_now(), sheets, from);
  }
  edit(bench, thing, from, where);
}

function scene(): Scene | null {
  if (!good?.picture) return null;
  const { picture } = good;
  const improve = questions.answer('improve');
  return {
    picture,
    dimensions: faults_of(last).length > 0 ? sizes : (dimensions_of(bench) ?? sizes),
    imperial: imperial(bench),
    chosen: lines.find((l) => l.group === chosen) ?? null,
    notes: improve && good.answer ? notes_of(improve, good, (o) => draw_in(bench, o.name, o.write)) : [],
    load_plan,
    keep_off: strips(bench),
    stored: stored_words(stored_now()),
    wall: bench.get(['wall']) !== undefined,
    tap: tapped,
    carry: (m, [x, y], hear) => {
      if (checked === bench.text) void carried.ready(bench.text, m.name);
      carried.over(x, y, hear);
    },
    let_go: () => carried.let_go(),
    move: (m, to) => {
      learned('drag');
      carried.let_go();
      minded = m.name;
      move(bench, picture, m, to);
    },
    move_bearer: (part, x) => move_bearer(bench, picture, part, x),
  };
}

function choose(line: Line): void {
  learned('rod');
  const again = by_hand && chosen === line.group;
  by_hand = true;
  chosen = again ? null : line.group;
  redraw();
  if (again) return;
  explain(line);
}

function put_machine(from: Event): void {
  const picture = good?.picture;
  const top = picture ? ground(picture, 'top') : null;
  add_machine(
    bench,
    from,
    (picture?.machines ?? []).filter((m) => m.sheet === 'top').map((m) => [m.at[0] - (top?.x[0] ?? 0), m.pads_x / 2]),
    top ? top.x[1] - top.x[0] : 0,
    (kind) => {
      minded = kind;
    },
  );
}

function side_by_side(from: Event): void {
  const now = good?.answer;
  if (!now) return;
  compare({ lines, verdict: now.verdict, summary: now.summary, text: bench.text }, beside, from, {
    keep: (kept) => {
      beside = kept;
      redraw();
    },
    back: (text) => bench.set(text),
    variants: bench.get(['variants'])
      ? () => void questions.ask({ command: 'variants', words: 'Its variants side by side', short: '' }, from, [])
      : null,
  });
}

const told = (fault: string): void => {
  lay_slip('this does not work', null, h('p', { class: 'red' }, fault));
};

function block_now(): HTMLElement {
  const { machines, about } = asked_about();
  return title_block({
    assessment: good?.answer ?? null,
    answer: last,
    text: bench.text,
    made: made_of(bench, good?.picture ?? null),
    is_file: face === 'file',
    busy: is_checking,
    first: is_first,
    broken,
    ask: (q, e) => void questions.ask(q, e, machines, about),
    compare: side_by_side,
    state: (c) => questions.state(c),
    put_on: (e) => {
      learned('drag');
      put_machine(e);
    },
    put_in: (e) => add_part(bench, e),
    shop: (e) => the_shop(bench, e),
  });
}

function turn_to(next: Face): void {
  face = next;
  redraw();
}

function redraw(): void {
  if (face === 'file' && document.activeElement instanceof HTMLTextAreaElement && root.querySelector('textarea'))
    return redraw_words();
  const held = document.activeElement?.closest('#page') ? found_again(document.activeElement) : null;
  const narrow = innerWidth < 900 && !is_printing;
  const now = scene();
  const block = block_now();
  const stale = now !== null && checked !== bench.text;
  const box = h('div', { class: stale ? 'paper stale' : 'paper' });
  const strip = h('footer', { class: stale ? 'stale' : '' }, rod(lines, chosen, beside?.lines ?? null, choose, is_first));
  const scrolled = root.querySelector('.rod')?.scrollLeft ?? 0;
  const asked = root.querySelector('.questions')?.scrollLeft ?? 0;
  const down = scrollY;
  const shares = narrow && beside_plan ? beside_plan : null;
  root.className = `${shares ? 'shares ' : ''}${narrow ? 'narrow' : 'broad'} face-${face}${is_printing ? ' printed' : ''}`;
  root.replaceChildren(
    tools(bench, face, turn_to, told),
    ...(narrow || is_printing ? [block, box] : [box]),
    strip,
  );
  if (!is_printing) strip.style.minHeight = `${for_rod.keep(strip.offsetHeight)}px`;
  if (is_printing) return root.querySelector('.paper')?.append(...(now ? on_paper(now, face) : []));
  const hint = hints(redraw, face === 'file');
  if (hint) box.append(hint);
  lay_paper(root, box, bench, {
    face,
    scene: now,
    narrow,
    block,
    notes: is_first ? '' : (good?.page ?? ''),
    nothing: last
      ? 'There is nothing to draw yet: the title block says what is wrong, "the file" is where it can be put right.'
      : 'Sharpening the pencil ...',
    turn,
    turn_to,
    // On a phone that lies the slip is beside the drawing.
    above: shares ? (innerHeight < 500 ? strip : shares).getBoundingClientRect().top : null,
  });
  const strip_now = root.querySelector<HTMLElement>('.rod');
  strip_now?.scrollTo(scrolled, 0);
  if (to_show) strip_now?.querySelector('[aria-pressed=true]')?.scrollIntoView({ inline: 'nearest', block: 'nearest' });
  to_show = false;
  scrollTo(0, down);
  // Slips rise from the rod, however high its words make it.
  document.documentElement.style.setProperty('--low', `${strip.offsetHeight}px`);
  root.querySelector('.questions')?.scrollTo(asked, 0);
  held?.()?.focus({ preventScroll: true });
}

/** Where only what is said changes: the drawing and the file stay as they are in hand. */
function redraw_words(): void {
  const old = root.querySelector<HTMLElement>('.title-block');
  if (!old) return;
  const held = [...old.querySelectorAll('button')].findIndex((b) => b === document.activeElement);
  const fresh = block_now();
  fresh.style.cssText = old.style.cssText;
  const scrolled = old.querySelector('.questions')?.scrollLeft ?? 0;
  old.replaceWith(fresh);
  fresh.querySelector('.questions')?.scrollTo(scrolled, 0);
  if (held >= 0) fresh.querySelectorAll('button')[held]?.focus({ preventScroll: true });
  if (face === 'file') root.querySelector('footer')?.replaceChildren(rod(lines, chosen, beside?.lines ?? null, choose, is_first));
}

// Printed it is drawn for paper, whatever the window's size is.
let is_printing = false;
around_print((begins) => {
  is_printing = begins;
  to_show = !begins;
  redraw();
});

questions.changed = () => redraw_words();
bench.onChange = () => {
  if (!bench.is_guest) drop_link();
  questions.forget();
  load_plan = null;
  broken = '';
  void check();
  redraw();
};
addEventListener('resize', () => requestAnimationFrame(redraw));
hears_the_window(bench, told);
void open_link(bench, told);
