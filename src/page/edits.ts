// What a tap on the drawing lets you change, and which key of the bench file that is.
import type { Document } from 'yaml';
import { assumed } from './assumed';
import { open_group, type Bench, type Path } from './bench';
import { all, sections, sheets } from './chosen';
import { in_unit_of, is_imperial, length_typed, plain_number, size_parts } from './lengths';
import { ground, type Dimensions, type Strip, type Thing } from './scene';
import { button, choice, field, refill, row } from './fields';
import { close_slip, lay_slip, retitle } from './slip';
import type { JointDrawn, MachineDrawn, Picture, Solid } from './types';
import { h } from './dom';

export const dimensions_of = (bench: Bench): Dimensions | null => {
  const [length, depth, height] = size_parts(bench.say(['size']));
  return length && depth && height ? { length, depth, height } : null;
};
export const imperial = (bench: Bench): boolean => is_imperial(bench.say(['size']), bench.say(['units']));
const unit = (bench: Bench): string => (imperial(bench) ? 'in' : 'mm');

/** Sets a key, or takes it away where nothing is written. */
export function put(doc: Document, path: Path, value: unknown, main = 'kind'): void {
  if (path.length > 1) open_group(doc, path.slice(0, -1), main);
  if (value === '') doc.deleteIn(path);
  else doc.setIn(path, value);
}

function dimension(bench: Bench, which: keyof Dimensions, from: Event): void {
  const sizes = dimensions_of(bench);
  if (!sizes) return by_text('size', from, 'The size can not be read: put it right in the file.');
  const keep = (typed: string) => {
    const { text, fault } = length_typed(typed, unit(bench), sizes[which]);
    if (!fault) bench.edit((doc) => doc.set('size', Object.values({ ...sizes, [which]: text }).join(' x ')));
    return fault;
  };
  lay_slip(
    which === 'height' ? 'height above the floor' : `${which} of the top`,
    from,
    field(which, sizes[which], keep, plain_number(unit(bench))),
  );
}

const rail = /^(front|back|left|right|middle)(?: middle)? (top|lower) rail/;

/** Which rails: this side, both like it, or all of them. */
function rail_scopes(part: string): [string, Path][] {
  const [, side = '', level = ''] = rail.exec(part) ?? [];
  const long = side === 'front' || side === 'back';
  const like = long ? 'long' : 'short';
  return side
    ? [
        [`both ${like} ${level} rails`, ['rails', level, like]],
        [`the ${side} ${level} rail alone`, ['rails', level, side]],
        ['all rails', ['rails']],
      ]
    : [];
}

function scoped(scopes: [string, Path][], then: (path: () => Path) => HTMLElement[]): HTMLElement[] {
  let path = scopes[0]?.[1] ?? [];
  const which = choice(
    'of',
    scopes.map(([name]) => name),
    scopes[0]?.[0] ?? '',
    (name) => {
      path = scopes.find(([n]) => n === name)?.[1] ?? path;
    },
  );
  return [which, ...then(() => path)];
}

function index_in(solid: { written: { path: string } | null }, list: string): number {
  const [, n] = new RegExp(`^${list}\\[(\\d+)\\]`).exec(solid.written?.path ?? '') ?? [];
  return n === undefined ? -1 : Number(n) - 1;
}

/** What a piece without a section of its own is cut from. */
const as_all = (bench: Bench): string => {
  const all = bench.say(['timber', 'section']) || bench.say(['timber']);
  return all ? `as all: ${all}` : 'as usual';
};

function timber_of(bench: Bench, path: Path, now: string): HTMLElement[] {
  return [
    choice(
      'section',
      sections,
      now,
      (value) => bench.edit((doc) => put(doc, [...path, 'section'], value, 'section')),
      as_all(bench),
    ),
  ];
}

function post(bench: Bench, from: Event): void {
  const now = bench.say(['posts', 'section']) || bench.say(['posts']);
  const foot = bench.say(['feet', 'thread']) || bench.say(['feet']);
  lay_slip(
    'posts',
    from,
    ...timber_of(bench, ['posts'], now),
    timber(bench),
    choice('feet', [...all.feet, 'none'], foot, (value) =>
      bench.edit((doc) => {
        if (value !== 'none') put(doc, ['feet', 'thread'], value, 'thread');
        else doc.set('feet', 'none');
      }),
    ),
  );
}

/** Of all posts and rails. */
function timber(bench: Bench): HTMLElement {
  return field(
    'timber of all',
    bench.say(['timber', 'class'])
      ? `${bench.say(['timber', 'class'])} ${bench.say(['timber', 'section'])}`
      : bench.say(['timber']),
    (value) => bench.edit((doc) => doc.set('timber', value)),
    'class and size: C24 45 x 95 mm, or 2x4',
  );
}

function rails(bench: Bench, solid: Solid, from: Event): void {
  const scopes = rail_scopes(solid.part);
  if (scopes.length === 0) return by_text(solid.part, from);
  const now = scopes.map(([, path]) => bench.say([...path, 'section'])).find((v) => v) ?? '';
  lay_slip(
    solid.part,
    from,
    ...scoped(scopes, (path) => [
      choice(
        'section',
        sections,
        now,
        (value) => bench.edit((doc) => put(doc, [...path(), 'section'], value, 'section')),
        as_all(bench),
      ),
      choice(
        'its joints',
        all.joints,
        '',
        (value) => bench.edit((doc) => put(doc, [...path(), 'joint'], value, 'section')),
        'as they are',
      ),
    ]),
    timber(bench),
  );
}

function joint(bench: Bench, drawn: JointDrawn, also: JointDrawn[], from: Event): void {
  const others =
    also.length > 0
      ? row(
          ...also.map((other) =>
            button(other.name, () => joint(bench, other, [drawn, ...also.filter((o) => o !== other)], from)),
          ),
        )
      : null;
  others?.prepend(h('span', { class: 'quiet' }, 'on the same spot'));
  const everywhere: [string, Path] = ['all joints of the bench', ['joints']];
  const own = rail_scopes(drawn.part).map(([name, path]): [string, Path] => [`joints of ${name}`, [...path, 'joint']]);
  const is_rail = own.length > 0;
  if (!is_rail && !/bearer/.test(drawn.part))
    return by_text(drawn.name, from, `${drawn.kind}. Its screws and bolts are written in the bench file.`, others);
  lay_slip(
    drawn.name,
    from,
    others,
    h('p', {}, `${drawn.kind}, on the ${drawn.onto}`),
    ...scoped([everywhere, ...own], (path) => [
      // Whatever else a group says of its joint belongs to the kind that it had.
      choice('joined by', all.joints, drawn.kind, (value) => bench.edit((doc) => put(doc, path(), value, 'section'))),
    ]),
  );
}

function sheet(bench: Bench, solid: Solid, from: Event): void {
  const path: Path =
    solid.part === 'top' || solid.part === 'shelf' ? [solid.part] : ['sheets', index_in(solid, 'sheets')];
  if (path[1] === -1) return by_text(solid.part, from);
  const get = (key: string) => bench.say([...path, key]);
  const set = (key: string) => (value: string) => bench.edit((doc) => put(doc, [...path, key], value, 'sheet'));
  const load = get('load');
  lay_slip(
    solid.part,
    from,
    choice('sheet', sheets, get('sheet') || bench.say(path), set('sheet')),
    choice(
      'face grain',
      ['', 'along', 'across'],
      get('grain'),
      set('grain'),
      assumed(/^I assumed that the face grain runs (along|across)/),
    ),
    choice('layers', ['', '1', '2', '3'], get('layers'), (v) =>
      bench.edit((doc) => put(doc, [...path, 'layers'], v === '' ? '' : Number(v), 'sheet')),
      'one',
    ),
    field(
      'stored on it',
      load,
      (v) => set('load')(in_unit_of(load || ' kg', v)),
      `${load ? '' : `${assumed(new RegExp(`^I assumed (.*) stored on the ${solid.part}$`))}; `}40 kg in all, or 50 kg/m2`,
    ),
    solid.part === 'top'
      ? null
      : row(
          button(`take the ${solid.part} away`, () => {
            close_slip();
            bench.edit((doc) => doc.deleteIn(path));
          }),
        ),
  );
}

function listed(bench: Bench, solid: Solid, list: 'braces' | 'bearers', from: Event): void {
  const at = index_in(solid, list);
  const is_list = Array.isArray(bench.get([list]));
  const path: Path = is_list && at >= 0 ? [list, at] : [list];
  const rises = bench.say([...path, 'rises_to']);
  lay_slip(
    solid.part,
    from,
    choice(
      'section',
      sections,
      bench.say([...path, 'section']),
      (v) => bench.edit((doc) => put(doc, [...path, 'section'], v)),
      list === 'bearers' ? as_all(bench) : 'as usual',
    ),
    list === 'braces'
      ? choice('kind', ['diagonal', 'cross', 'knee'], bench.say([...path, 'kind']) || 'diagonal', (v) =>
          bench.edit((doc) => put(doc, [...path, 'kind'], v)),
        )
      : null,
    list === 'braces'
      ? choice(
          'rises to',
          /left|right/.test(bench.say([...path, 'side'])) ? ['', 'back', 'front'] : ['', 'right', 'left'],
          rises,
          (v) => bench.edit((doc) => put(doc, [...path, 'rises_to'], v)),
        )
      : null,
    row(
      button('take it away', () => {
        close_slip();
        bench.edit((doc) => {
          const all_of = bench.get([list]);
          doc.deleteIn(is_list && Array.isArray(all_of) && all_of.length === 1 ? [list] : path);
        });
      }),
    ),
  );
}

function by_text(name: string, from: Event, more = '', others: HTMLElement | null = null): void {
  lay_slip(
    name,
    from,
    others,
    h(
      'p',
      {},
      more || 'This one is written in the bench file part by part: turn the sheet over to the file to change it.',
    ),
  );
}

export function machine_at(picture: Picture, machine: MachineDrawn): [number, number] {
  const top = ground(picture, machine.sheet);
  return [machine.at[0] - (top?.x[0] ?? 0), machine.at[1] - (top?.y[0] ?? 0)];
}

function machine(bench: Bench, drawn: MachineDrawn, index: number, from: Event, where: string[]): void {
  const list = index_in(drawn, 'machines');
  const path: Path =
    list >= 0
      ? ['machines', list]
      : drawn.written?.path.startsWith('vice') || list < 0
        ? ['vice']
        : ['machines', index];
  const set = (key: string) => (value: string) => bench.edit((doc) => put(doc, [...path, key], value));
  const place = (i: number) => (typed: string) => {
    const { text, fault } = length_typed(typed, unit(bench));
    const to = where.map((old, k) => (k === i ? text : old));
    if (!fault) bench.edit((doc) => put(doc, [...path, 'at'], doc.createNode(to, { flow: true })));
    return fault;
  };
  let mass = bench.say([...path, 'mass']) || `${Math.round(drawn.mass * 10) / 10} kg`;
  const how_heavy = field('mass', mass, (v) => set('mass')(in_unit_of(mass, v)), 'kg or lb');
  /** Mass, pads, speeds ... were those of the other kind: where nothing is written the new one's own hold. */
  const is_now = (kind: string) => {
    bench.edit((doc) => {
      put(doc, [...path, 'kind'], kind);
      for (const key of Object.keys(bench.get(path) ?? {}))
        if (!['kind', 'name', 'at', 'turned', 'mounting', 'sheet'].includes(key)) doc.deleteIn([...path, key]);
    });
    mass = `${all.machines.find((m) => m.key === kind)?.mass ?? 50} kg`;
    refill(how_heavy, mass);
    if (!bench.say([...path, 'name'])) retitle(slip, kind);
  };
  const slip = lay_slip(
    drawn.name,
    from,
    choice(
      'kind',
      all.machines.map((m) => m.key),
      bench.say([...path, 'kind']) || bench.say(path),
      is_now,
    ),
    how_heavy,
    row(field('from the left', where[0] ?? '', place(0)), field('from the front', where[1] ?? '', place(1))),
    choice('it is', ['bolted', 'standing'], drawn.bolted ? 'bolted' : 'standing', set('mounting')),
    row(
      button('turn a quarter', () => set('turned')(bench.say([...path, 'turned']) === 'yes' ? '' : 'yes')),
      button('take it off', () => {
        close_slip();
        bench.edit((doc) => {
          const now = bench.get(['machines']);
          doc.deleteIn(path[0] === 'machines' && Array.isArray(now) && now.length === 1 ? ['machines'] : path);
        });
      }),
    ),
  );
}

function strip_of_floor(bench: Bench, strip: Strip, from: Event): void {
  const path: Path = ['floor', 'keep_off', strip.index];
  const ends: Path[] = bench.get([...path, 'from'])
    ? [
        [...path, 'from'],
        [...path, 'to'],
      ]
    : [
        [...path, 'x', 0],
        [...path, 'x', 1],
      ];
  const end = (name: string, at: Path) =>
    bench.say(at)
      ? field(name, bench.say(at), (typed) => {
          const { text, fault } = length_typed(typed, unit(bench));
          if (!fault) bench.edit((doc) => doc.setIn(at, text));
          return fault;
        })
      : null;
  lay_slip(
    'floor where no foot may stand',
    from,
    h('p', { class: 'quiet' }, 'An outlet, a duct, what is drawn out from under the bench: from its left posts.'),
    row(end('from', ends[0]!), end('to', ends[1]!)),
    row(
      button('there is none', () => {
        close_slip();
        bench.edit((doc) => {
          const all_of = bench.get(['floor', 'keep_off']);
          doc.deleteIn(Array.isArray(all_of) && all_of.length > 1 ? path : ['floor', 'keep_off']);
        });
      }),
    ),
  );
}

export function edit(bench: Bench, thing: Thing, from: Event, where: (m: MachineDrawn) => string[]): void {
  switch (thing.kind) {
    case 'dimension':
      return dimension(bench, thing.which, from);
    case 'joint':
      return joint(bench, thing.joint, thing.also, from);
    case 'strip':
      return strip_of_floor(bench, thing.strip, from);
    case 'machine':
      return machine(bench, thing.machine, thing.index, from, where(thing.machine));
    case 'stored':
      return; // of several sheets: stored.ts
    case 'part':
      switch (thing.solid.of) {
        case 'post':
        case 'foot':
          return post(bench, from);
        case 'rail':
          return rails(bench, thing.solid, from);
        case 'sheet':
          return sheet(bench, thing.solid, from);
        case 'brace':
          return listed(bench, thing.solid, 'braces', from);
        default:
          return listed(bench, thing.solid, 'bearers', from);
      }
  }
}
