export interface Machine {
  readonly found: string | undefined; // the browser that is there
  readonly platform: string; // as process.platform
  readonly isDebian: boolean; // or made of it
  readonly hasApt: boolean;
  readonly isRoot: boolean;
}
export type Step =
  | {readonly kind: "nothing"}
  | {readonly kind: "install"}
  | {readonly kind: "tell"; readonly message: string};
export const BROWSERS: readonly string[];
export function stepFor(machine: Machine): Step;
export function foundBrowser(): string | undefined;
