// Around the core: in a worker it answers messages; in the page itself it stands by where there are no workers.
interface Core {
  ccall(name: string, returns: string, types: string[], values: unknown[]): string;
  addFunction(f: (done: number, of: number) => number, signature: string): number;
  _standtrue_on_progress(f: number): void;
}
declare function standtrue_core(options: object): Promise<Core>;

async function opened(module: WebAssembly.Module, tell: (done: number, of: number) => void) {
  const core = await standtrue_core({
    instantiateWasm(imports: WebAssembly.Imports, use: (i: WebAssembly.Instance) => void) {
      void WebAssembly.instantiate(module, imports).then(use);
      return {};
    },
  });
  core._standtrue_on_progress(
    core.addFunction((done, of) => {
      tell(done, of);
      return 1;
    }, 'idd'),
  );
  return (name: string, value: unknown): unknown => {
    const is_number = typeof value === 'number';
    const types = [is_number ? 'number' : 'string'];
    return JSON.parse(core.ccall(name, 'string', types, [is_number ? value : JSON.stringify(value)])) as unknown;
  };
}

type Scope = typeof globalThis & { standtrue_opened?: typeof opened; postMessage(message: unknown): void };
const scope = globalThis as Scope;
if (typeof document !== 'undefined') {
  scope.standtrue_opened = opened;
} else {
  let call: ((name: string, value: unknown) => unknown) | undefined;
  scope.onmessage = async ({
    data,
  }: MessageEvent<{ module?: WebAssembly.Module; id: number; name?: string; value?: unknown }>) => {
    try {
      if (data.module) {
        call = await opened(data.module, (done, of) => scope.postMessage({ done, of }));
        scope.postMessage({ ready: true });
      } else if (data.name && call) {
        scope.postMessage({ id: data.id, answer: call(data.name, data.value) });
      }
    } catch (fault) {
      scope.postMessage({ id: data.id, broken: String(fault) });
    }
  };
}
