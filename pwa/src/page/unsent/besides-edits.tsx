/** What besides edits this phone has not sent: entries of the journal, photos, and how a night was chosen to go on. */

import { useEffect, useState } from "preact/hooks";
import type { AcceptedRow } from "../catch-up/kept";
import { accepted } from "../catch-up/queries";
import { wayWords } from "../catch-up/words";
import { KeepFault } from "../edits/fault";
import { placeName } from "../journal/choosing";
import { told } from "../journal/queries";
import type { ToldRow } from "../journal/shapes";
import { discard, sendAgain } from "../journal/telling";
import { kindWords } from "../journal/words";
import { PutOffButton } from "../more/put-off-button";
import { keepFaultWords } from "../records/fault-words";
import { besidesEdits, copy, line, site } from "../store/queries";
import { go } from "../way/way";
import { letGo, release } from "../wet-check/photos/taking";
import { t } from "../words/catalogue";
import { nightSpan } from "../words/moments";
import { type PhotoHere, photosHere } from "./here";
import { UnsentRow } from "./row";

export function BesidesEdits() {
  const [photos, setPhotos] = useState<PhotoHere[]>([]);
  const counted = besidesEdits.value;
  useEffect(() => {
    void photosHere().then(setPhotos);
  }, [counted]);
  return (
    <ul class="rows" data-list="unsent-besides">
      {told.value
        .filter((row) => !row.taken)
        .map((row) => (
          <Entry key={row.id} row={row} />
        ))}
      {photos.map((photo) => (
        <Photo key={photo.id} photo={photo} />
      ))}
      {accepted.value.map((rest) => (
        <Rest key={rest.given.id} rest={rest} />
      ))}
    </ul>
  );
}

function whyWords(): string {
  if (line.value.now === "no_signal") return t("It waits for signal.");
  return line.value.now === "signed_out" ? t("It waits until you sign in.") : t("It is on its way.");
}

function Entry({ row }: { row: ToldRow }) {
  const [fault, setFault] = useState("");
  const document = site.value;
  const place = document && copy.value?.site === row.site ? placeName(row.entry, document) : "";
  const parts = [kindWords({ ...row.entry, by: "", row }), place, row.entry.text ?? ""];
  const act = async (work: () => Promise<void>) => {
    try {
      await work();
    } catch (error) {
      if (!(error instanceof KeepFault)) throw error;
      setFault(keepFaultWords(error.why));
    }
  };
  const faults = [...(row.faults ?? []).map((one) => one.detail || one.code), fault].filter(Boolean);
  return (
    <UnsentRow id={row.id} what={parts.filter(Boolean).join(" · ")} made={row.kept_at} why={whyWords()} faults={faults}>
      {row.faults ? (
        <Stuck onAgain={() => void act(() => sendAgain(row.id))} onThrow={() => void act(() => discard(row.id))} />
      ) : null}
    </UnsentRow>
  );
}

function Photo({ photo }: { photo: PhotoHere }) {
  const station = stationOf(photo.id);
  const what = station ? t("Photo of a finding at {station}", { station }) : t("Photo of a finding");
  const faults = photo.fault === null ? [] : [photo.fault];
  return (
    <UnsentRow id={photo.id} what={what} made={photo.kept_at} why={whyWords()} faults={faults}>
      {faults.length ? <Stuck onAgain={() => void release([photo.id])} onThrow={() => void letGo([photo.id])} /> : null}
    </UnsentRow>
  );
}

/** The station whose finding the photo belongs to; empty where that is not known here. */
function stationOf(photo: string): string {
  const document = site.value;
  const repair = document?.all("repairs").find((one) =>
    String(one.photos ?? "")
      .split(",")
      .includes(photo),
  );
  return document && repair ? document.nameOf("station", String(repair.station)) : "";
}

function Rest({ rest: { given, fault } }: { rest: AcceptedRow }) {
  const what = t("Night of {night}: {way}", { night: nightSpan(given.night), way: wayWords(given.way) });
  return (
    <UnsentRow id={given.id} what={what} made={given.at} why={whyWords()} faults={fault ? [fault] : []}>
      {fault ? (
        <button type="button" class="button" onClick={() => void forget(given.id)}>
          {t("I have read it")}
        </button>
      ) : (
        <button type="button" class="button" onClick={() => go("tonight")}>
          {t("See tonight")}
        </button>
      )}
    </UnsentRow>
  );
}

/** Its person has read why it was turned away. */
async function forget(rest: string): Promise<void> {
  const { dismiss } = await import("../catch-up/accepting");
  await dismiss(rest);
}

/** The server has said no: its person tries once more, or lets it go. */
function Stuck({ onAgain, onThrow }: { onAgain: () => void; onThrow: () => void }) {
  return (
    <div class="change-buttons">
      <button type="button" class="button" onClick={onAgain}>
        {t("Send again")}
      </button>
      <PutOffButton label={t("Throw away")} waiting={t("It is about to be thrown away.")} act={onThrow} />
    </div>
  );
}
