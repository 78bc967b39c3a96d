import {lazy, type ReactNode, Suspense, useEffect} from "react";
import {Answers} from "./parts/Answers.tsx";
import {Guard} from "./parts/Guard.tsx";
import {Head} from "./parts/Head.tsx";
import {NoticeBar} from "./parts/NoticeBar.tsx";
import {ViewList} from "./parts/ViewList.tsx";
import {useSettings} from "./state/settings.ts";
import {useShortcuts} from "./state/shortcuts.ts";
import {useView, type ViewName} from "./state/view.ts";

const Pavement = lazy(() => import("./views/pavement/index.tsx"));
const Materials = lazy(() => import("./views/materials/index.tsx"));
const Climate = lazy(() => import("./views/climate/index.tsx"));
const Traffic = lazy(() => import("./views/traffic/index.tsx"));
const Laboratory = lazy(() => import("./views/laboratoryPage.tsx"));
const Wheel = lazy(() => import("./views/wheel/index.tsx"));
const Certainty = lazy(() => import("./views/certainty/index.tsx"));
const Pays = lazy(() => import("./views/pays/index.tsx"));
const Costs = lazy(() => import("./views/costs/index.tsx"));
const Report = lazy(() => import("./views/report/index.tsx"));
const StudyText = lazy(() => import("./views/text/index.tsx"));

const CONTENT: Readonly<Record<ViewName, ReactNode>> = {
  pavement: <Pavement />,
  materials: <Materials />,
  climate: <Climate />,
  traffic: <Traffic />,
  laboratory: <Laboratory />,
  wheel: <Wheel />,
  certainty: <Certainty />,
  pays: <Pays />,
  costs: <Costs />,
  report: <Report />,
  text: <StudyText />,
};

export function App() {
  const view = useView(s => s.view);
  const theme = useSettings(s => s.theme);
  useShortcuts();
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
          <Suspense fallback={<p role="status">Loading…</p>}>{CONTENT[view]}</Suspense>
        </Guard>
      </main>
    </div>
  );
}
