/** Audits with catch cans: those there are, a new one of a station, and each on its own. */

import "../../look/record-form.css";
import "../../look/records.css";
import "../../look/need-audit.css";
import { useEffect } from "preact/hooks";
import { Chooser } from "../../records/chooser";
import { draftOf, records } from "../../records/desk";
import { splitKey } from "../../records/draft";
import { recordLine, recordTitle } from "../../records/record-words";
import { textOf } from "../../records/records";
import { StateBadge } from "../../records/state-badge";
import type { SiteRecord } from "../../site/document";
import { mayEdit } from "../../store/queries";
import { go, refine } from "../../way/way";
import { t, tn } from "../../words/catalogue";
import { AuditPage } from "./audit-page";
import { beginAudit, cansOf, draftName } from "./drafting";

const NEW = "new";

export function AuditsPage({ words: [first, station] }: { words: string[] }) {
  if (first === undefined) return <AuditList />;
  if (first !== NEW) return <AuditPage key={first} name={draftName(first)} id={first} />;
  if (!mayEdit.value) return <AuditList />;
  return station === undefined ? <WhichStation /> : <NewAudit key={station} station={station} />;
}

function AuditList() {
  const all = [...records.value.of("audits")].sort((a, b) => (textOf(a, "day") < textOf(b, "day") ? 1 : -1));
  return (
    <>
      <p class="need-note">
        {t("Cans on the ground catch what a station’s heads really give: how fast, and how evenly.")}
      </p>
      {mayEdit.value ? (
        <div class="need-acts">
          <button type="button" class="button button-strong" onClick={() => go("need", "audits", NEW)}>
            {t("Begin an audit")}
          </button>
        </div>
      ) : (
        <p class="need-note">{t("Leads and managers of this site do audits. You can read them.")}</p>
      )}
      {all.length === 0 ? <p class="list-none">{t("No station was audited yet.")}</p> : null}
      <ul>
        {all.map((audit) => (
          <li key={audit.id}>
            <AuditRow audit={audit} />
          </li>
        ))}
      </ul>
    </>
  );
}

function AuditRow({ audit }: { audit: SiteRecord }) {
  const read = cansOf(records.value, audit.id).filter((can) => can.catch !== null).length;
  return (
    <button type="button" class="row" onClick={() => go("need", "audits", audit.id)}>
      <span class="row-what">
        <span class="row-name">
          <bdi>{recordTitle(audit, records.value)}</bdi>
        </span>
        <span class="row-under">{recordLine(audit, records.value)}</span>
      </span>
      <span class="row-end">{tn("{count} can read", "{count} cans read", read)}</span>
      <StateBadge table="audits" id={audit.id} />
    </button>
  );
}

function WhichStation() {
  return (
    <div class="need-ask">
      <Chooser
        label={t("Which station is audited?")}
        hint={t("Stations that run together can be added to it.")}
        chosen=""
        verb={t("Choose a station")}
        options={records.value.of("stations").map((station) => ({
          value: station.id,
          label: recordTitle(station, records.value),
          about: recordLine(station, records.value),
        }))}
        onChoose={(station) => refine("need", "audits", NEW, station)}
      />
    </div>
  );
}

/** Its draft begins once, and stays until it is kept or discarded: whoever comes back goes on where they were. */
function NewAudit({ station }: { station: string }) {
  const name = draftName(`${NEW}/${station}`);
  const [key] = draftOf(name).keys();
  const there = records.value.get("stations", station) !== undefined;
  useEffect(() => {
    if (key === undefined && there) beginAudit(name, station);
  }, [name, key, there]);
  if (!there) return <p class="need-note">{t("This station is not on this phone: it may have been removed.")}</p>;
  if (key === undefined) return null;
  return <AuditPage name={name} id={splitKey(key)[1]} />;
}
