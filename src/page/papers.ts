// Slips for what comes in and goes out: examples, the link, the report to print.
import { Bench } from './bench';
import { examples } from './chosen';
import { Engine, Stopped } from './core';
import { h } from './dom';
import { link_of, print_report, save } from './files';
import { button, row } from './fields';
import { close_slip, lay_slip } from './slip';

/** Nothing in it that need not be: what is not said is assumed, and said to be. */
const plain = `# A bench of your own, screwed to a wall: change its size, then put your machines on.
standtrue: 1
title: My bench
size: 1800 x 700 x 900 mm
timber: C24 45 x 95 mm
top: 18 mm spruce plywood
wall: {rail: back top rail}
`;

export function choose_example(bench: Bench, from: Event): void {
  const begin = (name: string, text: string) => () => {
    close_slip();
    bench.name = name;
    bench.set(text);
  };
  const before = Bench.before_link();
  lay_slip(
    'begin with',
    from,
    before && before !== bench.text
      ? h(
          'div',
          { class: 'example' },
          button('Your own, of before', begin('bench.yaml', before)),
          h('p', { class: 'quiet' }, 'What was here when a link brought another bench.'),
        )
      : null,
    ...[{ name: 'bench.yaml', text: plain }, ...examples].map((e) => {
      const about =
        e.text
          .split('\n')
          .filter((l) => l.startsWith('# '))
          .map((l) => l.slice(2))
          .join(' ')
          .split(/(?<=[.?]) /)[0] ?? '';
      return h(
        'div',
        { class: 'example' },
        button(/^title: (.*)$/m.exec(e.text)?.[1] ?? e.name, begin(e.name, e.text)),
        h('p', { class: 'quiet' }, about),
      );
    }),
  );
}

export async function show_link(bench: Bench, from: Event): Promise<void> {
  const target = from.currentTarget;
  const url = await link_of(bench.text);
  const field = h('input', { type: 'text', readonly: true, value: url, 'aria-label': 'link' });
  lay_slip(
    'a link that carries this bench',
    target ? Object.assign(new Event('link'), {}) : null,
    field,
    h('p', { class: 'quiet' }, 'The bench is in the link itself: nothing is sent anywhere.'),
    row(
      button('copy it', () => {
        field.select();
        void navigator.clipboard?.writeText(url).catch(() => document.execCommand('copy'));
      }),
    ),
  );
}

export async function print(bench: Bench, from: Event): Promise<void> {
  const status = h(
    'p',
    { role: 'status' },
    'The core draws up its report; it looks for places too, which takes a while ...',
  );
  const slip = lay_slip('print', from, status);
  const printer = new Engine();
  const off = new MutationObserver(() => {
    if (!slip.isConnected) {
      printer.stop();
      off.disconnect();
    }
  });
  off.observe(document.body, { childList: true });
  try {
    const now = new Date();
    const date = `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
    const answer = await printer.ask(
      { command: 'check', text: bench.text, file: bench.name, report: true, date },
      (done, of) => {
        status.textContent = `The core draws up its report: ${done} of ${of} places tried.`;
      },
    );
    if (!answer.report) {
      status.textContent = answer.diagnostics[0]?.what ?? 'There is no report of this bench.';
      return;
    }
    const report = answer.report;
    status.textContent = [
      'Here it is: some 40 pages. The first is the shop drawing: print page 1 alone for the wall.',
      'The sheet as it lies here is printed by the browser (Ctrl+P).',
    ].join(' ');
    slip.append(
      row(
        button(
          'print it',
          () => {
            print_report(report);
          },
          'ruled strong',
        ),
        button('keep it as a file', () => save(report, bench.name.replace(/\.ya?ml$/, '') + '.html', 'text/html')),
      ),
    );
    print_report(report);
  } catch (e) {
    if (!(e instanceof Stopped)) status.textContent = String(e);
  }
}
