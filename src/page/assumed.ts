// What the core assumed of this bench where its file says nothing.
let told: string[] = [];
export function assume(assumptions: string[]): void {
  told = assumptions;
}

/** Its own words about it, "general" of "I assumed general duty"; else that it is as usual. */
export function assumed(about: RegExp): string {
  for (const line of told) {
    const [, words] = about.exec(line) ?? [];
    if (words) return `${words}, as assumed`;
  }
  return 'as usual';
}
