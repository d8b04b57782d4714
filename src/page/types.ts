// What the core answers, as far as the page reads it: docs/web.md, docs/*.schema.json. SI.
export type Place = [number, number, number];
export type Bounds = { low: number | null; soft: number | null; mean: number | null; stiff: number | null };
export type Judgement = 'satisfied' | 'exceeded' | 'depends' | 'not_judged' | 'outside_this_tool';
export type Verdict = 'stands' | 'depends' | 'carries_but' | 'do_not_load' | 'not_judged';

export interface Finding {
  id: string;
  group: string;
  kind: string;
  judgement: Judgement;
  sentence: string;
  place: string;
  demand: Bounds;
  limit: number | null;
  ratio: Bounds;
  why: string;
  advice: string;
  measure: string;
}
export interface Assessment {
  title: string;
  verdict: Verdict;
  summary: string;
  findings: Finding[];
  assumptions: string[];
  cautions: string[];
}
/** A machine that is carried about: where there is room, and how it would stand there. */
export interface Opened {
  fault?: string;
  why?: string;
  machine?: string;
  cell?: [number, number];
  places?: [number, number][];
}
export interface Moved {
  fault?: string;
  place: number;
  stand: 'clear' | 'care' | 'barred' | 'not_looked_at';
  why: string;
  sentence: string;
  ratio: number | null;
  sag: { demand: number; limit: number } | null;
}
export interface Written {
  path: string;
  line: number;
  column: number;
}
export interface Solid {
  of: string;
  part: string;
  corners: Place[];
  written: Written | null;
}
export interface JointDrawn {
  name: string;
  part: string;
  onto: string;
  kind: string;
  at: Place;
  released: boolean;
}
export interface MachineDrawn {
  name: string;
  kind: string;
  sheet: string;
  mass: number;
  at: Place;
  pads_x: number;
  pads_y: number;
  pad: number;
  pads: number;
  height: number;
  centre_of_mass: Place;
  bolted: boolean;
  written: Written | null;
}
export interface FootDrawn {
  name: string;
  x: number;
  y: number;
  soft: number | null;
  mean: number | null;
  stiff: number | null;
  most: number | null;
}
export interface Picture {
  length: number;
  depth: number;
  height: number;
  solids: Solid[];
  joints: JointDrawn[];
  machines: MachineDrawn[];
  feet: FootDrawn[];
  findings: Record<string, Place>;
  string: { y: number; below: [number, number][]; most: number; most_at: number } | null;
}
export interface Diagnostic {
  severity: 'error' | 'warning';
  line: number;
  column: number;
  length: number;
  path: string;
  what: string;
  instead: string;
}
export interface Option {
  name: string;
  write: string;
  pieces: number;
  joints: number;
  why: string;
  figures: Figures | null;
}
/** The worst of a sort, with joints from soft to stiff. */
export interface Range {
  least: number | null;
  mean: number | null;
  greatest: number | null;
}
export interface Figures {
  verdict: Verdict;
  summary: string;
  failing: string[];
  carry: Range | null;
  joints: Range | null;
  sheet: Range | null;
  sag_ratio: number | null;
  sway_along: Range | null; // N/m
  sway_across: Range | null;
  mass: number;
}
export interface Spot {
  stand: 'clear' | 'care' | 'barred';
  has_room: boolean;
  x: number;
  y: number;
}
export interface LoadPlan {
  machine: string;
  nx: number;
  ny: number;
  length: number;
  depth: number;
  answer: string[];
  none: string;
  is_alike_turned: boolean;
  ways: { turned: boolean; places: Spot[] }[];
}
export interface Comparison {
  answer: string[];
  options: Option[];
  complete: boolean;
}
// The answer of the other commands is read by its words alone.
export type AnswerJson = Assessment & Comparison & LoadPlan;

export interface Answer {
  fault?: string;
  code: number;
  diagnostics: Diagnostic[];
  message: string;
  answer: AnswerJson | null;
  picture: Picture | null;
  page: string | null;
  report: string | null;
  text: string | null;
}
export interface Request {
  command: string;
  text?: string;
  file?: string;
  picture?: boolean;
  extent?: 'drawn' | 'first look';
  page?: boolean;
  report?: boolean;
  detail?: boolean;
  width?: number;
  machine?: string;
  date?: string;
}
