/** Weather stations that may send readings: managers let one in, see when each was heard, and end it. Needs signal. */

import "../../look/more.css";
import "../../look/people.css";
import "../../look/need-weather.css";
import { useState } from "preact/hooks";
import { TextField } from "../../controls/text-field";
import { faultWords, fieldFault, useDoing } from "../../more/doing";
import { FaultLine } from "../../more/fault-line";
import { NeedsSignal } from "../../more/needs-signal";
import { PutOffButton } from "../../more/put-off-button";
import { useKnown } from "../../more/use-known";
import { whenHere } from "../../shell/line-words";
import { copy } from "../../store/queries";
import { t } from "../../words/catalogue";
import { endStation, type MadeStation, makeStation, stationsOf, type WeatherStation } from "./station-api";
import { TokenCard } from "./token-card";

const LONGEST_NAME = 80;

export function WeatherStationsPage(_: { words: string[] }) {
  const here = copy.value;
  if (here?.role !== "manager") return <p class="need-note">{t("Managers of this site see its weather stations.")}</p>;
  return <Stations site={here.site} />;
}

function Stations({ site }: { site: string }) {
  const list = stationsOf(site);
  const known = useKnown(list);
  const reload = () => void list.load();
  return (
    <div class="weather-stations">
      <NeedsSignal known={known} reload={reload} />
      <Add site={site} onMade={reload} />
      {known.items?.length === 0 ? <p class="more-note">{t("No weather station sends readings yet.")}</p> : null}
      <ul class="more-list">
        {known.items?.map((station) => (
          <StationRow key={station.id} site={site} station={station} onEnded={reload} />
        ))}
      </ul>
    </div>
  );
}

function Add({ site, onMade }: { site: string; onMade: () => void }) {
  const [made, setMade] = useState<MadeStation | null>(null);
  const [name, setName] = useState("");
  const doing = useDoing();
  if (made) return <TokenCard made={made} onDone={() => setMade(null)} />;
  const submit = async (event: Event) => {
    event.preventDefault();
    if (!(await doing.run(async () => setMade(await makeStation(site, name))))) return;
    setName("");
    onMade();
  };
  return (
    <form class="more-form" onSubmit={(event) => void submit(event)}>
      <TextField
        label={t("Name of a new weather station")}
        hint={t("The history names it so. Its token is shown once.")}
        value={name}
        most={LONGEST_NAME}
        fault={fieldFault(doing.fault, "name")}
        onChange={setName}
      />
      <button type="submit" class="button button-strong" disabled={doing.busy || !name.trim()}>
        {t("Let it send readings")}
      </button>
      <FaultLine fault={doing.fault} />
    </form>
  );
}

interface StationRowProps {
  site: string;
  station: WeatherStation;
  onEnded: () => void;
}

function StationRow({ site, station, onEnded }: StationRowProps) {
  const doing = useDoing();
  const { id, name, heard_at } = station;
  const act = async () => {
    if (await doing.run(() => endStation(site, id))) onEnded();
  };
  return (
    <li class="more-row">
      <span class="more-row-what">
        <span class="more-row-name">
          <bdi>{name}</bdi>
        </span>
        <span class="more-row-under">
          {heard_at === null ? t("Not heard yet") : t("Last heard {time}", { time: whenHere(heard_at, Date.now()) })}
        </span>
        {doing.fault ? <span class="more-fault">{faultWords(doing.fault)}</span> : null}
      </span>
      <PutOffButton
        label={t("End")}
        name={t("End {device}", { device: name })}
        waiting={t("{device} is about to be ended.", { device: name })}
        disabled={doing.busy}
        act={() => void act()}
      />
    </li>
  );
}
