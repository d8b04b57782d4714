// What a drawing is made from, and what can be done on it. Views draw; they change nothing themselves.
import type { Hear } from './carried';
import type { Finding, JointDrawn, LoadPlan, MachineDrawn, Picture, Place, Solid } from './types';

export interface Dimensions {
  length: string;
  depth: string;
  height: string;
}
export type Thing =
  | { kind: 'dimension'; which: keyof Dimensions }
  | { kind: 'part'; solid: Solid }
  | { kind: 'joint'; joint: JointDrawn; also: JointDrawn[] }
  | { kind: 'machine'; machine: MachineDrawn; index: number }
  | { kind: 'strip'; strip: Strip }
  | { kind: 'stored' };

export interface Note {
  text: string;
  then: string;
  at: Place;
  accept: () => void;
}
export interface Line {
  group: string;
  finding: Finding;
  words: string;
  where: string;
}
/** Of the floor, where no foot may stand. */
export interface Strip {
  index: number; // in the file's list
  x: [number, number];
  y: [number, number];
}

export interface Scene {
  picture: Picture;
  dimensions: Dimensions | null; // null where the file lists parts
  imperial: boolean;
  chosen: Line | null; // of the rod
  notes: Note[];
  load_plan: { plan: LoadPlan; turned: boolean } | null;
  keep_off: Strip[];
  stored: string; // what lies on top and shelf
  wall: boolean; // it is screwed to it
  tap: (thing: Thing, at: Event) => void;
  /** It is held over a place of its top; told is how it would stand there and about it. */
  carry: (machine: MachineDrawn, over: [number, number], hear: Hear) => void;
  let_go: () => void;
  move: (machine: MachineDrawn, to: [number, number]) => void;
  move_bearer: (part: string, x: number) => void;
}

export const is_flat = (solid: Solid): boolean => solid.of === 'sheet';

/** The sheet that machines stand on, as an upright box from above. */
export function ground(
  picture: Picture,
  sheet: string,
): { x: [number, number]; y: [number, number]; z: number } | null {
  const corners = picture.solids.filter((p) => p.of === 'sheet' && p.part === sheet).flatMap((p) => p.corners);
  if (corners.length === 0) return null;
  const all = (i: 0 | 1 | 2): [number, number] => [
    Math.min(...corners.map((c) => c[i])),
    Math.max(...corners.map((c) => c[i])),
  ];
  return { x: all(0), y: all(1), z: all(2)[1] };
}

export function all_places(picture: Picture): Place[] {
  const corners = picture.solids.flatMap((p) => p.corners);
  return corners.length > 0
    ? corners
    : [
        [0, 0, 0],
        [1, 1, 1],
      ];
}

/** The corner farthest from its middle, each way, of what stands on its pads. */
export const reach = (m: MachineDrawn): [number, number] => [(m.pads_x + m.pad) / 2, (m.pads_y + m.pad) / 2];
/** In the units of the bench's dimensions. */
export const weight = (mass: number, imperial: boolean): string =>
  imperial ? `${Math.round(mass / 0.45359237)} lb` : `${Math.round(mass)} kg`; // the international pound, by definition
