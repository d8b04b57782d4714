// What can be put on the bench or into it.
import type { Document } from 'yaml';
import { assumed } from './assumed';
import type { Bench } from './bench';
import { all, sheets } from './chosen';
import { h } from './dom';
import { in_unit_of } from './lengths';
import { button, choice, field, row } from './fields';
import { close_slip, lay_slip } from './slip';

function append(doc: Document, list: string, value: object): void {
  const now = doc.get(list, true) as { toJSON?: () => unknown } | undefined;
  const item = doc.createNode(value, { flow: true });
  const plain = now?.toJSON?.();
  if (Array.isArray(plain) && plain.length > 0) doc.addIn([list], item);
  else if (plain && typeof plain === 'object' && !Array.isArray(plain)) doc.set(list, doc.createNode([plain, value]));
  else {
    const fresh = doc.createNode([]);
    (fresh as unknown as { add: (v: unknown) => void }).add(item);
    doc.set(list, fresh);
  }
}

/** The middle, or where there is nothing yet. */
function free_place(taken: [number, number][], length: number): number | null {
  const near = (x: number) => Math.min(...taken.map(([a, half]) => Math.abs(a - x) - half), 1) > 0.25;
  const at = [0.5, 0.25, 0.75, 0.35, 0.65, 0.15, 0.85].map((f) => f * length).find(near);
  return at === undefined || at === 0.5 * length ? null : at;
}

const no_mass = (typed: string): string =>
  typed === '' || /^\d+(\.\d+)?\s*(g|kg|t|lb)$/.test(typed) ? '' : 'A mass is wanted here, such as 60 kg or 130 lb.';

/** `taken`: the middles along the top of what stands there, and half of its length; m. */
export function add_machine(
  bench: Bench,
  from: Event,
  taken: [number, number][],
  length: number,
  is_put: (kind: string) => void,
): void {
  let kind = 'drill press';
  let mass = '';
  const usual = () => all.machines.find((m) => m.key === kind)?.mass ?? 50;
  const how_heavy = field(
    'mass',
    `${usual()} kg`,
    (v) => {
      mass = in_unit_of('kg', v);
      return no_mass(mass);
    },
    'kg or lb; what is there is usual',
  );
  const input = how_heavy.querySelector('input')!;
  const put = (): void => {
    if (input.value !== `${usual()} kg`) mass = in_unit_of('kg', input.value);
    if (no_mass(mass)) return void input.dispatchEvent(new Event('change'));
    close_slip();
    const at = free_place(taken, length);
    is_put(kind);
    bench.edit((doc) =>
      append(doc, 'machines', {
        kind,
        ...(mass ? { mass } : {}),
        at: at === null ? 'middle' : `${Math.round(at * 1000)} mm`,
      }),
    );
  };
  lay_slip(
    'put a machine on',
    from,
    choice(
      'kind',
      all.machines.map((m) => m.key),
      kind,
      (v) => {
        kind = v;
        mass = '';
        input.value = `${usual()} kg`;
      },
    ),
    how_heavy,
    h('p', { class: 'quiet' }, 'It comes to stand where there is room: drag it on the plan.'),
    row(button('put it on', put, 'ruled strong')),
  );
}

export function add_part(bench: Bench, from: Event): void {
  const shelf = bench.get(['shelf']);
  const braces = [bench.get(['braces'])].flat() as ({ side?: string } | null | undefined)[];
  const bearers = bench.get(['bearers']);
  const is_there = (b: HTMLElement, there: boolean) => {
    b.setAttribute('aria-pressed', String(there));
    return b;
  };
  const has = (side: string) => braces.some((b) => b?.side === side);
  const take_away = (doc: Document, side: string) => {
    const left = braces.flatMap((b, i) => (b?.side === side ? [] : [i]));
    if (left.length === 0 || !Array.isArray(bench.get(['braces']))) doc.delete('braces');
    else for (let i = braces.length - 1; i >= 0; --i) if (!left.includes(i)) doc.deleteIn(['braces', i]);
  };
  const then = (change: (doc: Document) => void) => () => {
    close_slip();
    bench.edit(change);
  };
  lay_slip(
    'put in',
    from,
    choice(
      'a shelf on the lower rails',
      sheets,
      shelf ? 'there is one' : '',
      (v) => {
        close_slip();
        bench.edit((doc) => doc.set('shelf', v));
      },
      'none',
    ),
    h('p', {}, 'Braces, screwed or bolted across: where one is, the border is thick and a tap takes it away'),
    row(
      ...(['back', 'left', 'right', 'front'] as const).map((side) =>
        is_there(
          button(
            side,
            then((doc) => {
              if (has(side)) take_away(doc, side);
              else append(doc, 'braces', { side, kind: 'diagonal' });
            }),
          ),
          has(side),
        ),
      ),
    ),
    h('p', {}, 'Bearers under the top, from front to back'),
    row(
      ...[1, 2, 3].map((count) =>
        is_there(
          button(
            `${count} in each bay`,
            then((doc) => doc.set('bearers', doc.createNode({ count }, { flow: true }))),
          ),
          bench.get(['bearers', 'count']) === count,
        ),
      ),
      is_there(
        button(
          'none',
          then((doc) => doc.delete('bearers')),
        ),
        bearers === undefined || bearers === null,
      ),
    ),
  );
}

/** What the bench is for and where it stands. */
export function the_shop(bench: Bench, from: Event): void {
  const set = (key: string) => (v: string) =>
    bench.edit((doc) => {
      if (v) doc.set(key, v);
      else doc.delete(key);
    });
  const floor = bench.get(['floor']);
  const is_group = floor !== null && typeof floor === 'object';
  lay_slip(
    'the shop',
    from,
    field('name of the bench', bench.say(['title']), set('title')),
    choice('work on it', ['', ...all.duties], bench.say(['duty']), set('duty'), assumed(/^I assumed (.*) duty/)),
    choice('air', ['', ...all.airs], bench.say(['air']), set('air'), assumed(/^I assumed an? (\S+) shop/)),
    choice('floor', ['', ...all.floors], is_group ? bench.say(['floor', 'surface']) : bench.say(['floor']), (v) =>
      bench.edit((doc) => {
        if (is_group) doc.setIn(['floor', 'surface'], v);
        else if (v) doc.set('floor', v);
        else doc.delete('floor');
      }),
      assumed(/^I assumed an? (.*) floor/),
    ),
    choice('answers in', ['', 'metric', 'imperial'], bench.say(['units']), set('units'), 'as the dimensions are'),
  );
}
