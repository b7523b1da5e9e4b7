/** A photo: as this phone has it, drawn on a canvas, since the page's policy lets no picture come out of memory; else as
 * the server has it. */

import { useEffect, useRef, useState } from "preact/hooks";
import { copy } from "../../store/queries";
import { t } from "../../words/catalogue";
import { photoPath } from "./sending";
import { photoHere } from "./taking";

type Where = "looking" | "here" | "there" | "nowhere";

export function Picture({ id, place }: { id: string; place: number }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [where, setWhere] = useState<Where>("looking");
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    void drawInto(canvas.current, id).then((found) => {
      setWhere(found ? "here" : "there");
      setFault(found?.fault ?? null);
    });
  }, [id]);
  const label = t("Photo {place}", { place });
  return (
    <figure class="wet-photo">
      <canvas ref={canvas} role="img" aria-label={label} hidden={where !== "here"} />
      {where === "there" ? (
        <img src={photoPath(copy.value?.site ?? "", id)} alt={label} onError={() => setWhere("nowhere")} />
      ) : null}
      {where === "nowhere" ? (
        <figcaption>
          {t("This photo is not here yet. It comes once there is signal and its phone has sent it.")}
        </figcaption>
      ) : null}
      {fault ? <figcaption>{t("This photo was not taken by the server: {why}", { why: fault })}</figcaption> : null}
    </figure>
  );
}

/** What this phone has of it, once it is drawn; null where it has none, or the browser cannot read it. */
async function drawInto(canvas: HTMLCanvasElement | null, id: string) {
  const found = await photoHere(id);
  if (!found || !canvas) return null;
  const picture = await createImageBitmap(new Blob([found.bytes], { type: found.kind })).catch(() => null);
  if (!picture) return null;
  [canvas.width, canvas.height] = [picture.width, picture.height];
  canvas.getContext("2d")?.drawImage(picture, 0, 0);
  picture.close();
  return found;
}
