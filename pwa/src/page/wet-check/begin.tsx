/** Before a walk: through which stations, how long each gets water, and the cautions first. */

import { useMemo, useState } from "preact/hooks";
import { readLength } from "../controls/duration-field";
import { Stepper } from "../controls/stepper";
import type { Read } from "../controls/typed";
import type { Place } from "../place/place";
import type { SiteDocument } from "../site/document";
import { chosen as selection } from "../stations/choosing";
import { minutesText, minutesUnit, stepName } from "../stations/run-words";
import { mayNote, person } from "../store/queries";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { roughly } from "../words/units";
import { walkCautions } from "./cautions";
import { type Chosen, EACH_S, isToDo, LEAST_EACH_S, MOST_EACH_S, type Planned, plan } from "./choosing";
import { FromHere } from "./from-here";
import { phoneTime, put, whose } from "./under-way";
import { newWalk } from "./walk";
import { Which } from "./which-stations";

interface BeginProps {
  document: SiteDocument;
  chosen: boolean; // some were chosen in the list of stations
}

export function Begin({ document, chosen: given }: BeginProps) {
  const [chosen, setChosen] = useState<Chosen>({ by: given && selection.value.size ? "chosen" : "all", which: "" });
  const [each_s, setEach] = useState(EACH_S);
  const [fault, setFault] = useState<string | null>(null);
  const [from, setFrom] = useState<Place | null>(null);
  const picked = selection.value;
  const planned = useMemo(() => plan(document, chosen, picked, from), [document, chosen, picked, from]);
  const { stations } = planned;
  const begin = () => {
    const own = whose();
    if (own) put(newWalk(own, stations, each_s, phoneTime()));
  };
  return (
    <>
      <ToRepairs document={document} />
      {mayNote.value ? (
        <div class="wet-begin">
          <ul class="cautions wet-cautions" aria-label={t("Caution")}>
            {walkCautions(stations).map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          <Which document={document} chosen={chosen} onChoose={setChosen} />
          <Each each_s={each_s} onChange={setEach} onFault={setFault} />
          <p class="wet-note wet-count" role="status">
            {stations.length ? sizeWords(planned, each_s) : t("No station is in this walk.")}
          </p>
          {planned.length_m === null ? null : <FromHere from={from} onChange={setFrom} />}
          <div class="wet-acts">
            <button
              type="button"
              class="button button-brass wet-go"
              disabled={stations.length === 0 || fault !== null}
              onClick={begin}
            >
              {t("Begin the walk")}
            </button>
          </div>
        </div>
      ) : (
        <WhoMay />
      )}
    </>
  );
}

function sizeWords({ stations, unplaced, length_m }: Planned, each_s: number): string {
  const water = duration(stations.length * each_s);
  if (length_m !== null) {
    return tn(
      "{count} station along a short path of {distance}, {duration} of water at least.",
      "{count} stations along a short path of {distance}, {duration} of water at least.",
      stations.length,
      { distance: roughly("length", length_m), duration: water },
    );
  }
  const order = tn(
    "{count} station, part by part and by number, {duration} of water at least.",
    "{count} stations, part by part and by number, {duration} of water at least.",
    stations.length,
    { duration: water },
  );
  const missing = tn(
    "Of {count} nobody has said where it lies: put it in its place on the way, and the next walk takes a short path.",
    "Of {count} nobody has said where they lie: put them in their places on the way, and the next walk takes a short path.",
    unplaced,
  );
  return `${order} ${missing}`;
}

function ToRepairs({ document }: { document: SiteDocument }) {
  const left = document.all("repairs").filter(isToDo).length;
  return (
    <button type="button" class="row wet-entry" onClick={() => go("wet-check", "repairs")}>
      <span class="row-what">
        <span class="row-name">{t("Repairs")}</span>
        <span class="row-under">
          {left ? tn("{count} to see to", "{count} to see to", left) : t("Nothing is to be mended.")}
        </span>
      </span>
    </button>
  );
}

interface EachProps {
  each_s: number;
  onChange: (each_s: number) => void;
  onFault: (fault: string | null) => void;
}

function Each({ each_s, onChange, onFault }: EachProps) {
  const label = t("Water at each station");
  const read = (text: string) => readLength(text, { label, least: LEAST_EACH_S, most: MOST_EACH_S, required: true });
  return (
    <Stepper
      label={label}
      value={each_s}
      was={each_s}
      least={LEAST_EACH_S}
      most={MOST_EACH_S}
      size={60}
      write={minutesText}
      unit={minutesUnit(each_s)}
      read={(text) => read(text) as Read<number>}
      stepName={stepName}
      onChange={onChange}
      onFault={onFault}
    />
  );
}

function WhoMay() {
  return (
    <div class="wet-acts">
      <p class="wet-note">{t("People of this site’s team do wet checks. You can read what they found.")}</p>
      {person.value ? null : (
        <button type="button" class="button" onClick={() => go("join")}>
          {t("Join with a code")}
        </button>
      )}
    </div>
  );
}
