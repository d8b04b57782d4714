// The core as the page sees it: one question at a time, each answered by a promise; it can be stopped.
import type { Answer, Request } from './types';

declare const LETTERS: string;

function bytes_of(text: string): Uint8Array<ArrayBuffer> {
  const [length = '0', letters = ''] = text.split('~');
  const value = new Uint8Array(128);
  [...LETTERS].forEach((letter, i) => {
    value[letter.charCodeAt(0)] = i;
  });
  const out = new DataView(new ArrayBuffer((letters.length / 5) * 4));
  for (let i = 0, o = 0; i < letters.length; i += 5, o += 4) {
    let n = 0;
    for (let k = 0; k < 5; ++k) n = n * 85 + (value[letters.charCodeAt(i + k)] ?? 0);
    out.setUint32(o, n);
  }
  return new Uint8Array(out.buffer, 0, Number(length));
}

let compiled: Promise<WebAssembly.Module> | undefined;

/** Inflated and compiled once; every worker gets the same. */
function core_module(): Promise<WebAssembly.Module> {
  compiled ??= (async () => {
    const held = document.getElementById('wasm');
    const deflated = new Blob([bytes_of(held?.textContent ?? '')]).stream();
    const wasm = await new Response(deflated.pipeThrough(new DecompressionStream('deflate-raw'))).arrayBuffer();
    held?.remove();
    return WebAssembly.compile(wasm);
  })();
  return compiled;
}

const source = (id: string) => document.getElementById(id)?.textContent ?? '';

type Call = (name: string, value: unknown) => unknown;
type Waiting = { resolve: (answer: unknown) => void; reject: (e: Error) => void; tell?: (done: number, of: number) => void };
export class Stopped extends Error {}

export class Engine {
  private worker?: Worker;
  private ready?: Promise<void>;
  private here?: Call;
  private waiting?: Waiting;
  private last = 0;
  private asked = 0;

  get busy(): boolean {
    return this.waiting !== undefined;
  }

  /** Once started: the core has a worker of its own, and what it does holds nothing up. */
  get is_apart(): boolean {
    return this.here === undefined;
  }

  start(): Promise<void> {
    this.ready ??= core_module().then((module) => this.opened(module));
    return this.ready;
  }

  private async opened(module: WebAssembly.Module): Promise<void> {
    try {
      const url = URL.createObjectURL(new Blob([source('glue'), '\n', source('worker')], { type: 'text/javascript' }));
      this.worker = new Worker(url);
      URL.revokeObjectURL(url);
    } catch {
      const opened = (
        globalThis as unknown as {
          standtrue_opened: (m: WebAssembly.Module, tell: () => void) => Promise<Call>;
        }
      ).standtrue_opened;
      this.here = await opened(module, () => undefined);
      return;
    }
    const worker = this.worker;
    await new Promise<void>((resolve, reject) => {
      worker.onerror = (e) => {
        reject(new Error(e.message));
        this.fail(e.message);
      };
      worker.onmessage = ({ data }) => {
        if (data.ready) return resolve();
        if (data.done !== undefined) return this.waiting?.tell?.(data.done, data.of);
        if (data.broken) {
          reject(new Error(data.broken));
          return this.fail(data.broken);
        }
        if (data.id !== this.last) return;
        const waiting = this.waiting;
        this.waiting = undefined;
        waiting?.resolve(data.answer);
      };
      worker.postMessage({ module, id: 0 });
    });
  }

  /** The core itself gave up: the next question gets a new one. */
  private fail(why: string): void {
    const waiting = this.waiting;
    this.end();
    waiting?.reject(new Error(why));
  }

  private end(): void {
    this.worker?.terminate();
    this.worker = undefined;
    this.ready = undefined;
    this.waiting = undefined;
  }

  ask(request: Request, tell?: Waiting['tell']): Promise<Answer> {
    return this.call<Answer>('standtrue_answer', request, tell);
  }

  /** A function of the core, by its name. */
  async call<T>(name: string, value: unknown, tell?: Waiting['tell']): Promise<T> {
    const asked = ++this.asked;
    await this.start();
    if (asked !== this.asked) throw new Stopped(); // while the core was being opened
    if (this.here) {
      await new Promise((r) => setTimeout(r, 30)); // what was changed is painted first
      return this.here(name, value) as T;
    }
    return new Promise<T>((resolve, reject) => {
      this.waiting = { resolve: resolve as Waiting['resolve'], reject, tell };
      this.worker?.postMessage({ id: ++this.last, name, value });
    });
  }

  stop(): void {
    ++this.asked;
    const waiting = this.waiting;
    if (!waiting) return;
    this.end();
    waiting.reject(new Stopped());
  }
}
