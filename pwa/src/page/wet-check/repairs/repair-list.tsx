/** Repairs by their state, by who sees to them, and by station. */

import { signal } from "@preact/signals";
import { Choice } from "../../controls/choice";
import { PickList } from "../../controls/pick-list";
import type { SiteDocument, SiteRecord } from "../../site/document";
import { person } from "../../store/queries";
import { StationTag } from "../../tonight/station-tag";
import { go } from "../../way/way";
import { t, tn } from "../../words/catalogue";
import { figure } from "../../words/figures";
import { sideBySide } from "../../words/lists";
import { shortDay } from "../../words/moments";
import { foundWords, STATES, type State, stateName } from "../words";
import { countIn, ownersOf, photosOf, repairsByStation, type Wanted } from "./repairs";

/** Whoever comes back from a repair finds the list as it was. */
const wanted = signal<Wanted>({ state: "open", owner: "anybody", station: null });
const put = (part: Partial<Wanted>) => {
  wanted.value = { ...wanted.peek(), ...part };
};

export function RepairList({ document }: { document: SiteDocument }) {
  const groups = repairsByStation(document, wanted.value);
  return (
    <div class="repairs">
      <div class="repairs-find">
        <Choice<State>
          label={t("State")}
          value={wanted.value.state}
          options={STATES.map((state) => ({ value: state, label: countedState(document, state) }))}
          onChange={(state) => put({ state })}
        />
        <Owner document={document} />
        <AtStation document={document} />
      </div>
      {groups.length === 0 ? <p class="list-none">{t("No repair here.")}</p> : null}
      {groups.map(({ station, repairs }) => (
        <section key={station}>
          <div class="list-head">
            <h2>
              <bdi>{document.nameOf("station", station)}</bdi>
            </h2>
          </div>
          <ul>
            {repairs.map((repair) => (
              <li key={repair.id}>
                <RepairRow document={document} repair={repair} />
              </li>
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

function countedState(document: SiteDocument, state: State): string {
  return t("{state}: {count}", { state: stateName(state), count: figure(countIn(document, state), 0) });
}

const ANYBODY = "anybody";
const NOBODY = "nobody";
const NAMED = "name:";

function Owner({ document }: { document: SiteDocument }) {
  const { owner } = wanted.value;
  const names = new Set([...(person.value ? [person.value.name] : []), ...ownersOf(document)]);
  return (
    <PickList
      label={t("Who sees to it")}
      value={typeof owner === "string" ? owner : NAMED + owner.name}
      options={[
        { value: ANYBODY, label: t("Anybody") },
        { value: NOBODY, label: t("Nobody yet") },
        ...[...names].map((name) => ({ value: NAMED + name, label: name })),
      ]}
      onChange={(value) =>
        put({ owner: value === ANYBODY || value === NOBODY ? value : { name: value.slice(NAMED.length) } })
      }
    />
  );
}

function AtStation({ document }: { document: SiteDocument }) {
  const known = repairsByStation(document, { ...wanted.value, station: null });
  return (
    <PickList
      label={t("Station")}
      value={wanted.value.station ?? ""}
      options={[
        { value: "", label: t("All stations") },
        ...known.map(({ station }) => ({ value: station, label: document.nameOf("station", station) })),
      ]}
      onChange={(station) => put({ station: station || null })}
    />
  );
}

function RepairRow({ document, repair }: { document: SiteDocument; repair: SiteRecord }) {
  const photos = photosOf(repair).length;
  const under = [
    repair.found_on ? shortDay(String(repair.found_on)) : "",
    String(repair.owner ?? "") || t("nobody yet"),
    photos ? tn("{count} photo", "{count} photos", photos) : "",
  ];
  return (
    <button type="button" class="row" onClick={() => go("wet-check", "repairs", repair.id)}>
      <StationTag number={document.stations.get(String(repair.station))?.number ?? ""} />
      <span class="row-what">
        <span class="row-name">{foundWords(String(repair.found ?? "other"), Number(repair.count ?? 1))}</span>
        <span class="row-under">{sideBySide(under)}</span>
      </span>
    </button>
  );
}
