// The marking-out rod: a line for each question. A knife line is the limit, a smear of pencil runs from the
// better to the worse answer.
import { h, s } from './dom';
import type { Line } from './scene';
import { lay_slip } from './slip';
import type { Finding } from './types';

export const groups = ['carry', 'joints', 'sheet', 'sag', 'sway', 'twist', 'hum', 'tip', 'slide', 'feet'];
const asks: Record<string, string> = {
  carry: 'do posts and rails carry it',
  joints: 'do the joints carry it',
  sheet: 'do the sheets carry it',
  sag: 'does it sag',
  sway: 'does it sway',
  twist: 'does a bed twist',
  hum: 'does it hum',
  tip: 'does it tip',
  slide: 'does it slide',
  feet: 'do feet and floor carry it',
};
const knife = 0.75; // of the rod's length: where the limit is

export const known = (values: (number | null)[]): number[] => values.filter((v): v is number => v !== null && v >= 0);
export const ratios = (f: Finding): number[] => known([f.ratio.low, f.ratio.soft, f.ratio.mean, f.ratio.stiff]);
const decides = (f: Finding) => f.kind === 'safety' || f.kind === 'service';
export const is_over = (f: Finding): boolean => f.judgement === 'exceeded' || f.judgement === 'depends';

/** Safety before service, what is exceeded before what depends; then the worse ratio: as the core has it. */
function rank(f: Finding): [number, number] {
  const order = ['exceeded', 'depends', 'not_judged'].indexOf(f.judgement);
  return [order < 0 ? 6 : order + (f.kind === 'service' ? 3 : 0), -Math.max(-1, ...ratios(f))];
}

/** The line that the verdict hangs on, of several the first of the rod; where all is well, how far it sags. */
export function worst_of(lines: Line[]): string | null {
  const over = lines.filter((l) => is_over(l.finding) && decides(l.finding));
  over.sort((a, b) => rank(a.finding)[0] - rank(b.finding)[0]);
  return (over[0] ?? lines.find((l) => l.group === 'sag'))?.group ?? null;
}

/** The core's own words beside each line, from the page it would print. */
export function words_of(page: string): Map<string, { words: string; where: string }> {
  const found = new Map<string, { words: string; where: string }>();
  for (const line of page.split('\n')) {
    const [, group = '', words = '', where = ''] =
      /^ {2}(\w+) +\|.*?\|\|[ o>]*?(?: {2,}|>)\s*(\S.*?)(?:\s+<- (.*))?$/.exec(line) ?? [];
    if (groups.includes(group)) found.set(group, { words: words.replace(/^(?:o*>|o+ +)\s*/, ''), where });
  }
  return found;
}

export function lines_of(findings: Finding[], page: string): Line[] {
  const words = words_of(page);
  return groups.flatMap((group) => {
    const judged = findings.filter(
      (f) =>
        f.group === group &&
        decides(f) &&
        f.judgement !== 'not_judged' &&
        f.judgement !== 'outside_this_tool' &&
        ratios(f).length > 0,
    );
    const finding =
      judged.sort((a, b) => rank(a)[0] - rank(b)[0] || rank(a)[1] - rank(b)[1])[0] ??
      findings.find((f) => f.group === group && decides(f) && f.judgement !== 'outside_this_tool') ??
      findings.find((f) => f.group === group);
    const said = words.get(group);
    return finding
      ? [
          {
            group,
            finding,
            words:
              said?.words ??
              held[finding.id] ??
              (finding.judgement === 'not_judged' ? 'not judged' : finding.kind === 'told' ? 'no limit' : ''),
            where: said?.where ?? '',
          },
        ]
      : [];
  });
}

/** What has no limit because something else holds it. */
const held: Record<string, string> = {
  'tipping/wall': 'the wall holds it',
  'sliding/held': 'wall or floor holds it',
};

/** A first look does not find all: what is to come keeps its place. */
export function with_those_to_come(found: Line[], before: Line[]): Line[] {
  const unknown = { low: null, soft: null, mean: null, stiff: null };
  return groups.flatMap((group) => {
    const line = found.find((l) => l.group === group);
    if (line) return [line];
    const old = before.find((l) => l.group === group);
    return old
      ? [{ ...old, words: '...', where: '', finding: { ...old.finding, judgement: 'not_judged', ratio: unknown } }]
      : [];
  });
}

function smear(finding: Finding, other: Finding | undefined): SVGElement {
  const w = 120;
  const x = (ratio: number) => Math.min(ratio * knife * w, w - 1);
  const drawing = s(
    'svg',
    { viewBox: `0 0 ${w} 20`, preserveAspectRatio: 'none', 'aria-hidden': 'true', class: 'stick' },
    s('rect', { x: 0.5, y: 2, width: w - 1, height: 16, class: 'stick-edge' }),
  );
  for (const [f, style] of [
    [other, 'before'],
    [finding, 'smear'],
  ] as const) {
    const values = f ? ratios(f) : [];
    if (values.length === 0) continue;
    const [from, to] = [x(Math.min(...values)), x(Math.max(...values))];
    const at = Math.max(0, Math.min(from, to - 4));
    const [y, height] = style === 'before' ? [14, 4] : [3, 14];
    const limit = knife * w;
    if (at < limit) drawing.append(s('rect', { x: at, y, width: Math.min(to, limit) - at, height, class: style }));
    if (to > limit)
      drawing.append(
        s('rect', {
          x: Math.max(at, limit),
          y,
          width: Math.max(to - Math.max(at, limit), 3),
          height,
          class: style === 'before' ? style : 'over',
        }),
      );
  }
  drawing.append(s('path', { d: `M${knife * w - 1.3} 0V20M${knife * w + 1.3} 0V20`, class: 'knife' }));
  return drawing;
}

const state: Record<string, string> = {
  satisfied: 'good',
  exceeded: 'over',
  depends: 'depends',
  not_judged: 'not judged',
  outside_this_tool: 'not judged',
};

export function rod(
  lines: Line[],
  chosen: string | null,
  beside: Line[] | null,
  choose: (line: Line) => void,
  first = false, // a first look: soft joints may yet say otherwise
): HTMLElement {
  const items = lines.map((line) => {
    const over = is_over(line.finding) && line.finding.kind !== 'told' && line.finding.kind !== 'caution';
    const told = line.finding.kind === 'told';
    return h(
      'li',
      {},
      h(
        'button',
        {
          type: 'button',
          class: over ? 'mark is-over' : 'mark',
          'data-key': `rod ${line.group}`,
          'aria-pressed': String(line.group === chosen),
          title: asks[line.group],
          onclick: () => choose(line),
        },
        h(
          'span',
          { class: 'mark-name' },
          h('b', {}, line.group),
          ' ',
          h('i', {}, told ? 'for information' : first ? 'so far' : (state[line.finding.judgement] ?? '')),
        ),
        smear(line.finding, beside?.find((b) => b.group === line.group)?.finding),
        h('span', { class: 'mark-words' }, line.words),
      ),
    );
  });
  return h('ol', { class: 'rod', 'aria-label': 'The rod: each question against its limit' }, ...items);
}

/** What the core says of a line: what is so, why, what to change, what to measure. */
export function explain(line: Line): void {
  const f = line.finding;
  lay_slip(
    line.group,
    null,
    h('p', { class: 'said' }, f.sentence),
    line.words ? h('p', {}, line.words) : null,
    f.place ? h('p', { class: 'quiet' }, f.place) : null,
    f.why ? h('p', {}, f.why) : null,
    f.advice ? h('p', {}, h('b', {}, 'Change: '), f.advice) : null,
    f.measure ? h('p', {}, h('b', {}, 'Measure: '), f.measure) : null,
  ).classList.add('by-rod');
}
