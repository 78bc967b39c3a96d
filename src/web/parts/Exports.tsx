/** Pictures and their numbers as files. */
import {Download} from "lucide-react";
import {Menu, MenuItem, MenuTrigger, Popover} from "react-aria-components";
import {download} from "../state/download.ts";
import {tell} from "../state/notices.ts";
import {Button} from "./Button.tsx";

export interface ExportsProps {
  readonly name: string; // of the files, without ending
  /** The picture as markup that stands alone; null: it is not drawn yet. */
  readonly svg: () => string | null;
  readonly csv?: () => string;
}

export function Exports({name, svg, csv}: ExportsProps) {
  const act = (key: React.Key): void => {
    if (key === "csv") {
      download(`${name}.csv`, `\uFEFF${csv?.() ?? ""}`, "text/csv");
      return;
    }
    const picture = svg();
    if (picture === null) return;
    if (key === "svg") download(`${name}.svg`, picture, "image/svg+xml");
    else
      rasterised(picture).then(
        png => download(`${name}.png`, png, "image/png"),
        error => tell({kind: "bad", text: `The picture could not be made: ${(error as Error).message}`}),
      );
  };
  return (
    <MenuTrigger>
      <Button look="bare" aria-label={`Save the chart ${name}`}>
        <Download size={16} aria-hidden />
      </Button>
      <Popover className="pop">
        <Menu onAction={act}>
          <MenuItem className="item" id="svg">
            Picture, SVG
          </MenuItem>
          <MenuItem className="item" id="png">
            Picture, PNG
          </MenuItem>
          {csv && (
            <MenuItem className="item" id="csv">
              Numbers, CSV
            </MenuItem>
          )}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}

/** A drawn picture by itself, on white. */
export function standalone(svg: SVGSVGElement): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  copy.style.background = "#ffffff";
  copy.style.color = "#1c2530";
  return new XMLSerializer().serializeToString(copy);
}

const FINER = 3; // pixels of the picture to one of the screen, enough for print

async function rasterised(picture: string): Promise<Uint8Array> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(picture)}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [FINER * image.width, FINER * image.height];
  const context = canvas.getContext("2d")!;
  context.fillStyle = "#ffffff";
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>(resolve => canvas.toBlob(resolve, "image/png"));
  if (!blob) throw new Error("the browser could not draw it");
  return new Uint8Array(await blob.arrayBuffer());
}
