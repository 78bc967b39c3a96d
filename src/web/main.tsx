import "./withoutEval.ts";
import {StrictMode} from "react";
import {createRoot} from "react-dom/client";
import {App} from "./App.tsx";
import {startSession} from "./state/session.ts";
import "./style/theme.css";
import "./style/controls.css";
import "./style/frame.css";

void startSession();
createRoot(document.getElementById("page")!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
