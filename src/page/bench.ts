// The bench: its file as text, what was before and after, kept in this browser.
import { isCollection, isMap, isScalar, parseDocument, type Document, type YAMLMap } from 'yaml';

export type Path = (string | number)[];
const key = 'standtrue.bench';
const before_link = 'standtrue.bench.before'; // what was kept when somebody else's bench took its place

function kept(under: string): string | null {
  try {
    return localStorage.getItem(under);
  } catch {
    return null;
  }
}
function keep(under: string, text: string): void {
  try {
    localStorage.setItem(under, text);
  } catch {
    /* private windows keep nothing */
  }
}

export class Bench {
  private texts: string[] = [];
  private at = -1;
  private guest: string | null = null; // came by a link, and is not yet changed
  private own = ''; // what was there before it
  name = 'bench.yaml';
  onChange: () => void = () => undefined;

  get text(): string {
    return this.texts[this.at] ?? '';
  }
  get canUndo(): boolean {
    return this.at > 0;
  }
  get canRedo(): boolean {
    return this.at + 1 < this.texts.length;
  }

  static stored(): string | null {
    return kept(key);
  }
  static before_link(): string | null {
    return kept(before_link);
  }

  /** Somebody else's bench: one's own comes before it, and stays kept until this one is changed. */
  visit(text: string): void {
    const own = this.text || kept(key) || '';
    if (own === text) return this.set(text);
    if (own && this.texts.length === 0) [this.texts, this.at] = [[own], 0];
    [this.guest, this.own] = [text, own];
    this.set(text);
  }
  get is_guest(): boolean {
    return this.guest !== null && this.text === this.guest;
  }

  set(text: string): void {
    if (text === this.text) return;
    this.texts = [...this.texts.slice(Math.max(0, this.at - 99), this.at + 1), text];
    this.at = this.texts.length - 1;
    this.changed();
  }
  undo(): void {
    if (this.canUndo) {
      --this.at;
      this.changed();
    }
  }
  redo(): void {
    if (this.canRedo) {
      ++this.at;
      this.changed();
    }
  }

  private changed(): void {
    if (!this.is_guest) {
      if (this.guest !== null && this.own && this.text !== this.own) {
        keep(before_link, this.own);
        this.guest = null;
      }
      keep(key, this.text);
    }
    this.onChange();
  }

  doc(): Document {
    return parseDocument(this.text);
  }

  /** Changes keys and leaves comments and order as they are. */
  edit(change: (doc: Document) => void): void {
    const doc = this.doc();
    if (doc.errors.length > 0 || !isMap(doc.contents)) return;
    change(doc);
    this.set(doc.toString({ lineWidth: 0, flowCollectionPadding: false }));
  }

  /** What the file says there, as a plain value. */
  get(path: Path): unknown {
    const doc = this.doc();
    const node = doc.errors.length > 0 ? undefined : doc.getIn(path, true);
    const plain = node as { toJSON?: () => unknown } | undefined;
    return plain && typeof plain.toJSON === 'function' ? plain.toJSON() : plain;
  }

  say(path: Path): string {
    const value = this.get(path);
    return value === undefined || value === null || typeof value === 'object' ? '' : String(value);
  }
}

/** `posts: 70 x 70 mm` as `posts: {section: 70 x 70 mm}`, so that another key can stand beside it. */
export function open_group(doc: Document, path: Path, main: string): void {
  for (let n = 1; n <= path.length; ++n) {
    const upto = path.slice(0, n);
    const node = doc.getIn(upto, true);
    if (isCollection(node)) continue;
    const group = doc.createNode({}) as YAMLMap;
    group.flow = true;
    if (n === path.length && isScalar(node) && node.value !== 'none' && node.value !== null) {
      group.set(main, node.value);
      group.comment = node.comment;
    }
    doc.setIn(upto, group);
  }
}

/** What an option says to write: groups key by key, lists and single values whole. */
export function merge(doc: Document, write: string): void {
  const other = parseDocument(write);
  const walk = (path: Path, from: unknown): void => {
    const into = path.length === 0 ? doc.contents : doc.getIn(path, true);
    if (isMap(from) && (isMap(into) || path.length === 0)) {
      for (const pair of from.items) walk([...path, String((pair.key as { value: unknown }).value)], pair.value);
    } else {
      doc.setIn(path, from);
    }
  };
  if (other.errors.length === 0) walk([], other.contents);
}
