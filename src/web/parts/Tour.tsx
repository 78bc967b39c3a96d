import {setSettings, useSettings} from "../state/settings.ts";
import {Button} from "./Button.tsx";

/** The first visit: what is on the page, in three sentences. */
export function Tour() {
  const tour = useSettings(s => s.tour);
  if (!tour) return null;
  return (
    <aside className="note row no-print" aria-label="What is here">
      <div style={{flex: 1, minWidth: 240}}>
        <b>An example is open and computed: a cracked road with and without an interlayer.</b>
        <ol style={{margin: "4px 0 0"}}>
          <li>Click a layer, the joint or “Edit” to change it; or drag the line below a layer. Lives follow.</li>
          <li>Move the time below the sections and watch the cracks of all treatments grow.</li>
          <li>
            Go on to “How sure” and “Where it pays” before you tell anybody a number. “Open” has a new study for you.
          </li>
        </ol>
      </div>
      <Button look="main" onPress={() => setSettings({tour: false})}>
        Got it
      </Button>
    </aside>
  );
}
