/** The room of the wet check: a walk from station to station with the water on, and what it found that is to be mended. */

import "../look/controls.css";
import "../look/lists.css";
import "../look/tray.css";
import "../look/wet-check.css";
import { Patterns } from "../picture/patterns";
import type { SiteDocument } from "../site/document";
import { site } from "../store/queries";
import { later } from "../way/later";
import { RoomHead } from "../way/room-head";
import { t } from "../words/catalogue";
import { Begin } from "./begin";
import { Summary } from "./summary";
import { walk } from "./under-way";
import { isOver } from "./walk";
import { WalkPage } from "./walk-page";

const Repairs = later(() => import("./repairs/page").then((file) => file.Repairs));

export function Room({ words }: { words: string[] }) {
  const document = site.value;
  const [first, second] = words;
  const repairs = first === "repairs";
  return (
    <main class="wet">
      <Patterns />
      <RoomHead
        title={repairs ? t("Repairs") : t("Wet check")}
        sub={<bdi>{document?.name ?? ""}</bdi>}
        back={repairs && second ? "wet-check" : "stations"}
      />
      <div class="wet-body">
        {document === null ? (
          <p class="wet-note">{t("No site is on this phone yet.")}</p>
        ) : repairs ? (
          <Repairs document={document} id={second ?? null} />
        ) : (
          <Walking document={document} chosen={first === "chosen"} />
        )}
      </div>
    </main>
  );
}

function Walking({ document, chosen }: { document: SiteDocument; chosen: boolean }) {
  const under = walk.value;
  if (!under) return <Begin document={document} chosen={chosen} />;
  return isOver(under) ? <Summary document={document} walk={under} /> : <WalkPage document={document} walk={under} />;
}
