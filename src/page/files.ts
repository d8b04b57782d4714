// Bench files in and out: picker, drop, download, a link that carries the bench. All of it is a stranger's text.
import type { Bench } from './bench';
import { h } from './dom';

const most = 200_000; // letters; the core takes no more either

export function read_file(file: File, bench: Bench, told: (fault: string) => void): void {
  if (file.size > most) return told('This file is too large for a bench.');
  void file.text().then(
    (text) => {
      bench.name = file.name.slice(0, 80);
      bench.set(text);
    },
    () => told('This file cannot be read.'),
  );
}

export function pick(bench: Bench, told: (fault: string) => void): void {
  const input = h('input', { type: 'file', accept: '.yaml,.yml,.txt' });
  input.addEventListener('change', () => {
    const file = input.files?.[0];
    if (file) read_file(file, bench, told);
  });
  input.click();
}

export function save(text: string, name: string, type = 'text/yaml'): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = h('a', { href: url, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

const to_url = (bytes: Uint8Array) =>
  btoa(String.fromCharCode(...bytes))
    .replace(/\+/g, '-')
    .replace(/\//g, '_')
    .replace(/=+$/, '');

async function through(
  bytes: BlobPart,
  stream: ReadableWritablePair<Uint8Array<ArrayBuffer>, BufferSource>,
): Promise<Uint8Array> {
  const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) throw new Error('too large'); // a small link must not become a large text
    parts.push(value);
  }
  const all = new Uint8Array(size);
  parts.reduce((at, p) => {
    all.set(p, at);
    return at + p.length;
  }, 0);
  return all;
}

export async function link_of(text: string): Promise<string> {
  const packed = await through(text, new CompressionStream('deflate-raw'));
  return `${location.href.replace(/#.*$/, '')}#bench=${to_url(packed)}`;
}

export async function from_link(): Promise<string | 'damaged' | null> {
  if (!location.hash.startsWith('#bench')) return null;
  const [, packed] = /^#bench=([\w-]+)$/.exec(location.hash) ?? [];
  if (!packed || packed.length > most) return 'damaged';
  try {
    const bytes = Uint8Array.from(atob(packed.replace(/-/g, '+').replace(/_/g, '/')), (c) => c.charCodeAt(0));
    return new TextDecoder().decode(await through(bytes, new DecompressionStream('deflate-raw')));
  } catch {
    return 'damaged';
  }
}
/** The bench is another than the link's: when the page is loaded again it must not take its place. */
export function drop_link(): void {
  if (!location.hash.startsWith('#bench')) return;
  try {
    history.replaceState(null, '', location.href.replace(/#.*$/, ''));
  } catch {
    /* the address stays as it is */
  }
}

/** The core's report in a frame that may run nothing; it brings its own layout for paper. */
export function print_report(report: string): HTMLIFrameElement {
  document.getElementById('report')?.remove();
  const frame = h('iframe', {
    id: 'report',
    title: 'report',
    sandbox: 'allow-same-origin allow-modals',
    class: 'report',
  });
  frame.srcdoc = report.replace(
    /<head>/i,
    '<head><meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'unsafe-inline\'; img-src data:">',
  );
  frame.addEventListener(
    'load',
    () => {
      frame.contentWindow?.print();
    },
    { once: true },
  );
  document.body.append(frame);
  return frame;
}
