/** What a page notes of its own start. */
import type {Page} from "playwright-core";

/** Times from the navigation on [ms], bodies sent [kB]. */
export interface Start {
  readonly painted: number; // first content of any kind
  readonly drawn: number; // the section
  readonly interactive: number; // drawn, and from then on half a second without a long task
  readonly busy: number; // long tasks until then, together
  readonly dialog: number; // from pressing "Open" to the dialog
  readonly answer: number; // first life
  readonly kilobytes: number; // until interactive
  readonly allKilobytes: number; // until the answer
}

const QUIET = 500; // [ms]

/** Runs in the page before anything else. */
export const WATCH = `
  const start = {painted: 0, drawn: 0, answer: 0, tasks: []};
  window.start = start;
  new PerformanceObserver(list => {
    for (const {startTime, duration} of list.getEntries()) start.tasks.push([startTime, startTime + duration]);
  }).observe({type: "longtask", buffered: true});
  new PerformanceObserver(list => {
    for (const {name, startTime} of list.getEntries()) if (name === "first-contentful-paint") start.painted = startTime;
  }).observe({type: "paint", buffered: true});
  const shown = {drawn: "article.treatment .section-drawing svg", answer: ".answers .answer"};
  const look = () => {
    for (const [name, selector] of Object.entries(shown))
      if (start[name] === 0 && document.querySelector(selector)) {
        start[name] = -1; // painted in the frame after the next
        requestAnimationFrame(() => setTimeout(() => { start[name] = performance.now(); }));
      }
    if (start.drawn === 0 || start.answer === 0) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
`;

type Noted = {readonly painted: number; readonly drawn: number; readonly tasks: readonly [number, number][]};

/** Waits until the page is interactive. */
export async function watched(page: Page): Promise<Pick<Start, "painted" | "drawn" | "interactive" | "busy">> {
  const found = await page.waitForFunction(
    quiet => {
      const {painted, drawn, tasks} = (globalThis as unknown as {start: Noted}).start;
      if (!(painted > 0 && drawn > 0)) return null;
      let interactive = drawn;
      for (const [begin, end] of tasks) if (begin < interactive + quiet && end > interactive) interactive = end;
      if (performance.now() < interactive + quiet) return null;
      const busy = tasks.reduce((sum, [begin, end]) => sum + (begin < interactive ? end - begin : 0), 0);
      return {painted, drawn, interactive, busy};
    },
    QUIET,
    {polling: 50, timeout: 60_000},
  );
  return (await found.jsonValue())!;
}

/** From pressing "Open" to the frame that shows the dialog [ms], noted in the page: no debugger is between. */
export function dialogTime(page: Page): Promise<number> {
  return page.evaluate<number>(`new Promise(resolve => {
    const pressed = performance.now();
    const look = () =>
      document.querySelector("[role=dialog]")
        ? requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - pressed)))
        : requestAnimationFrame(look);
    [...document.querySelectorAll("header button")].find(b => b.textContent === "Open").click();
    look();
  })`);
}
