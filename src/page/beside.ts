// Two benches side by side: the one that was kept, and this one.
import { h } from './dom';
import type { Line } from './scene';
import { button, row } from './fields';
import { close_slip, lay_slip } from './slip';
import { verdict_word } from './title_block';
import { told_shortly } from './told';

export interface Kept {
  lines: Line[];
  verdict: string;
  summary: string;
  text: string;
}
interface Actions {
  keep: (kept: Kept | null) => void;
  back: (text: string) => void;
  variants: (() => void) | null;
}

export function compare(now: Kept, kept: Kept | null, from: Event, act: Actions): void {
  const of = (title: string, verdict: string, summary: string) =>
    h('div', {}, h('h3', {}, title), h('p', {}, h('b', {}, verdict_word[verdict] ?? ''), ': ', summary));
  lay_slip(
    'side by side',
    from,
    h(
      'p',
      {},
      kept
        ? 'Kept, and pale under each line of the rod:'
        : 'Keep this bench beside the next: its answers stay, pale, under each line of the rod while you change it.',
    ),
    kept ? of('the one kept', kept.verdict, kept.summary) : null,
    of('this one', now.verdict, now.summary),
    kept
      ? h(
          'table',
          {},
          ...now.lines.map((l) =>
            h(
              'tr',
              {},
              h('th', { scope: 'row' }, l.group),
              h('td', {}, kept.lines.find((k) => k.group === l.group)?.words ?? ''),
              h('td', {}, l.words),
            ),
          ),
        )
      : null,
    act.variants ? button('the variants that the file gives', act.variants) : null,
    row(
      button('keep this one', () => {
        close_slip();
        act.keep(now);
        told_shortly('Kept: its answers stay, pale, under each line of the rod.');
      }),
      kept ? button('back to the one kept', () => act.back(kept.text)) : null,
      kept ? button('put it away', () => act.keep(null)) : null,
    ),
  ).classList.add('wide');
}
