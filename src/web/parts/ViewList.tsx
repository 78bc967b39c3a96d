import {
  CircleDollarSign,
  FileText,
  FlaskConical,
  Gauge,
  Layers,
  type LucideIcon,
  Map as MapPicture,
  Palette,
  Ruler,
  ScrollText,
  Thermometer,
  Truck,
  Waves,
} from "lucide-react";
import {useFaults} from "../state/answers.ts";
import {viewOf} from "../state/places.ts";
import {useView, type ViewName} from "../state/view.ts";

/** In the order of the engineer's questions. */
const LIST: readonly {readonly view: ViewName; readonly name: string; readonly Picture: LucideIcon}[] = [
  {view: "laboratory", name: "Laboratory", Picture: FlaskConical},
  {view: "pavement", name: "Pavement", Picture: Layers},
  {view: "materials", name: "Materials", Picture: Palette},
  {view: "climate", name: "Climate", Picture: Thermometer},
  {view: "traffic", name: "Traffic", Picture: Truck},
  {view: "wheel", name: "Under the wheel", Picture: Waves},
  {view: "certainty", name: "How sure", Picture: Gauge},
  {view: "pays", name: "Where it pays", Picture: MapPicture},
  {view: "thickness", name: "How thick", Picture: Ruler},
  {view: "costs", name: "Costs", Picture: CircleDollarSign},
  {view: "report", name: "Report", Picture: FileText},
  {view: "text", name: "As text", Picture: ScrollText},
];

export function ViewList() {
  const present = useView(s => s.view);
  const faulty = new Set(useFaults().map(viewOf));
  return (
    <nav className="views" aria-label="Views">
      <div className="inside">
        {LIST.map(({view, name, Picture}) => (
          <a key={view} href={`#${view}`} aria-current={view === present ? "page" : undefined}>
            <Picture size={20} strokeWidth={1.7} aria-hidden />
            {name}
            {faulty.has(view) && <span className="mark">has faults</span>}
          </a>
        ))}
      </div>
    </nav>
  );
}
