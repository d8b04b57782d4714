// What is dragged on the plan, written into the bench file; what of the file the plan shows besides.
import type { Bench } from './bench';
import { imperial, put } from './edits';
import { metres, written } from './lengths';
import { ground, type Strip } from './scene';
import type { MachineDrawn, Picture } from './types';

export function strips(bench: Bench): Strip[] {
  const list = bench.get(['floor', 'keep_off']);
  if (!Array.isArray(list)) return [];
  const far: [number, number] = [-100, 100];
  return (list as Record<string, unknown>[]).flatMap((strip, index) => {
    const pair = (v: unknown): [number, number] =>
      Array.isArray(v) ? [metres(String(v[0])), metres(String(v[1]))] : far;
    const x: [number, number] =
      strip['from'] === undefined ? pair(strip['x']) : [metres(String(strip['from'])), metres(String(strip['to']))];
    const y = strip['y'] === undefined ? far : pair(strip['y']);
    return [...x, ...y].some(Number.isNaN) ? [] : [{ index, x, y }];
  });
}

export function move(bench: Bench, picture: Picture, m: MachineDrawn, to: [number, number]): void {
  const top = ground(picture, m.sheet);
  const [, n] = /^machines\[(\d+)\]/.exec(m.written?.path ?? '') ?? [];
  const path = n ? ['machines', Number(n) - 1] : ['vice'];
  m.at = [to[0], to[1], m.at[2]]; // stays where it was put until the core has its say
  bench.edit((doc) =>
    put(
      doc,
      [...path, 'at'],
      doc.createNode(
        [to[0] - (top?.x[0] ?? 0), to[1] - (top?.y[0] ?? 0)].map((v) => written(v, imperial(bench))),
        { flow: true },
      ),
    ),
  );
}

export function move_bearer(bench: Bench, picture: Picture, part: string, x: number): void {
  const middles = picture.solids
    .filter((p) => p.of === 'bearer' && /^bearer/.test(p.part))
    .map((p) => (p.part === part ? x : p.corners.reduce((sum, c) => sum + c[0] / 8, 0)));
  bench.edit((doc) => {
    const now = doc.get('bearers', true) as { toJSON?: () => unknown } | undefined;
    const plain = now?.toJSON?.();
    const one = (Array.isArray(plain) ? plain[0] : plain) as Record<string, unknown> | undefined;
    const rest = Object.fromEntries(
      Object.entries(one && typeof one === 'object' ? one : {}).filter(([k]) => !['at', 'every', 'count'].includes(k)),
    );
    doc.set(
      'bearers',
      doc.createNode({ at: middles.map((v) => written(v, imperial(bench))), ...rest }, { flow: true }),
    );
  });
}
