/** Put a station where its reader stands: the phone's place becomes the station's, with or without signal. */

import { useEffect, useRef, useState } from "preact/hooks";
import { keepChanges } from "../edits/keeping";
import { keepFaultWords } from "../records/fault-words";
import type { SiteDocument } from "../site/document";
import { mayNote } from "../store/queries";
import { t } from "../words/catalogue";
import { roughly } from "../words/units";
import { locate } from "./locating";
import { metresBetween, type Place, placeOf, putAt } from "./place";
import { locatingFaultWords } from "./words";
import "../look/place.css";

/** Common practice, no source: beyond, the next station is as likely. */
export const WORST_M = 30;

/** No phone tells places apart that are nearer. */
const SAME_M = 1;

export function PutHere({ document, station }: { document: SiteDocument; station: string }) {
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState("");
  const here = useRef(true);
  useEffect(
    () => () => {
      here.current = false;
    },
    [],
  );
  if (!mayNote.value) return null;
  const was = placeOf(document.record("stations", station));
  const press = async () => {
    setBusy(true);
    setFault("");
    const said = await putHere(document, station, was, () => here.current);
    setBusy(false);
    setFault(said);
  };
  return (
    <div class="put-here">
      {was ? null : <p>{t("Nobody has said yet where this station lies.")}</p>}
      <button type="button" class="button" disabled={busy} onClick={() => void press()}>
        {busy ? t("Finding where you are…") : was ? t("Put this station here instead") : t("Put this station here")}
      </button>
      <p role="status" class="put-here-fault">
        {fault}
      </p>
    </div>
  );
}

/** Why it could not be put there; empty: it is. `wanted`: its reader still looks at this station. */
async function putHere(document: SiteDocument, station: string, was: Place | null, wanted: () => boolean) {
  const found = await locate();
  if (!wanted()) return "";
  if (typeof found === "string") return locatingFaultWords(found);
  const accuracy = roughly("length", found.accuracy_m);
  if (found.accuracy_m > WORST_M) {
    return t(
      "This phone knows its place to {accuracy} only, and {limit} is the most that tells one station from the next. Wait in the open for a moment, then try again.",
      { accuracy, limit: roughly("length", WORST_M) },
    );
  }
  if (was && metresBetween(was, found) < SAME_M) return t("This station lies here already.");
  const number = document.stations.get(station)?.number ?? "";
  const kept = await keepChanges(putAt(station, found), () =>
    was
      ? t("Moved {station} by {distance}. Known to {accuracy}.", {
          station: number,
          distance: roughly("length", metresBetween(was, found)),
          accuracy,
        })
      : t("Put {station} here. Known to {accuracy}.", { station: number, accuracy }),
  );
  return kept === "kept" ? "" : keepFaultWords(kept);
}
