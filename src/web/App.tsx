import {type ComponentType, lazy, Suspense, useEffect} from "react";
import {Answers} from "./parts/Answers.tsx";
import {Guard} from "./parts/Guard.tsx";
import {Head} from "./parts/Head.tsx";
import {NoticeBar} from "./parts/NoticeBar.tsx";
import {ViewList} from "./parts/ViewList.tsx";
import {useSettings} from "./state/settings.ts";
import {useShortcuts} from "./state/shortcuts.ts";
import {useView, VIEWS, type ViewName} from "./state/view.ts";

const MODULES: Readonly<Record<ViewName, () => Promise<{readonly default: ComponentType}>>> = {
  pavement: () => import("./views/pavement/index.tsx"),
  materials: () => import("./views/materials/index.tsx"),
  climate: () => import("./views/climate/index.tsx"),
  traffic: () => import("./views/traffic/index.tsx"),
  laboratory: () => import("./views/laboratoryPage.tsx"),
  wheel: () => import("./views/wheel/index.tsx"),
  certainty: () => import("./views/certainty/index.tsx"),
  pays: () => import("./views/pays/index.tsx"),
  thickness: () => import("./views/thickness/index.tsx"),
  costs: () => import("./views/costs/index.tsx"),
  report: () => import("./views/report/index.tsx"),
  text: () => import("./views/text/index.tsx"),
};

const CONTENT = Object.fromEntries(VIEWS.map(name => [name, lazy(MODULES[name])]));

/** After the start, when it is in nobody's way [ms]. */
const FETCHED_AFTER = 4000;

/** All views, and what writes reports, are fetched while there is a network: who has opened the page may go on without one. */
function fetchViews(): () => void {
  const timer = setTimeout(() => {
    const reports = (): Promise<unknown> => import("../report/index.ts");
    for (const load of [...Object.values(MODULES), reports]) load().catch(() => undefined); // asked for again when needed
  }, FETCHED_AFTER);
  return () => clearTimeout(timer);
}

export function App() {
  const view = useView(s => s.view);
  const theme = useSettings(s => s.theme);
  const View = CONTENT[view];
  useShortcuts();
  useEffect(fetchViews, []);
  useEffect(() => {
    const show = (shown: string) => () => {
      document.documentElement.dataset.theme = shown;
    };
    const [paper, screen] = [show("light"), show(theme)]; // paper is white
    screen();
    window.addEventListener("beforeprint", paper);
    window.addEventListener("afterprint", screen);
    return () => {
      window.removeEventListener("beforeprint", paper);
      window.removeEventListener("afterprint", screen);
    };
  }, [theme]);
  return (
    <div className="frame">
      <button type="button" className="skip" onClick={() => document.getElementById("body")?.focus()}>
        Go to the view
      </button>
      <Head />
      <ViewList />
      <main className="body" id="body" tabIndex={-1}>
        <NoticeBar />
        <Answers />
        <Guard name={view}>
          <Suspense fallback={<p role="status">Loading…</p>}>
            <View />
          </Suspense>
        </Guard>
      </main>
    </div>
  );
}
