/** Controllers, meters and gateways that may write into the journal: managers let one in, see when it was heard, end it. */

import "../look/people.css";
import "../look/need-weather.css";
import { useState } from "preact/hooks";
import { TextField } from "../controls/text-field";
import { faultWords, fieldFault, useDoing } from "../more/doing";
import { FaultLine } from "../more/fault-line";
import { NeedsSignal } from "../more/needs-signal";
import { PutOffButton } from "../more/put-off-button";
import { useKnown } from "../more/use-known";
import { whenHere } from "../shell/line-words";
import { copy } from "../store/queries";
import { t, tn } from "../words/catalogue";
import { endReporter, type MadeReporter, makeReporter, type Reporter, reportersOf } from "./reporter-api";
import { ReporterCard } from "./reporter-card";

const LONGEST_NAME = 80;

export function ReportersPage() {
  const here = copy.value;
  if (here?.role !== "manager") return <p class="more-note">{t("Managers of this site see who reports.")}</p>;
  return <Reporters site={here.site} />;
}

function Reporters({ site }: { site: string }) {
  const list = reportersOf(site);
  const known = useKnown(list);
  const reload = () => void list.load();
  return (
    <div class="journal">
      <h2 class="more-title">{t("Who reports")}</h2>
      <NeedsSignal known={known} reload={reload} />
      <Add site={site} onMade={reload} />
      {known.items?.length === 0 ? <p class="more-note">{t("Nothing reports by itself yet.")}</p> : null}
      <ul class="more-list">
        {known.items?.map((reporter) => (
          <ReporterRow key={reporter.id} site={site} reporter={reporter} onEnded={reload} />
        ))}
      </ul>
    </div>
  );
}

function Add({ site, onMade }: { site: string; onMade: () => void }) {
  const [made, setMade] = useState<MadeReporter | null>(null);
  const [name, setName] = useState("");
  const doing = useDoing();
  if (made) return <ReporterCard made={made} onDone={() => setMade(null)} />;
  const submit = async (event: Event) => {
    event.preventDefault();
    if (!(await doing.run(async () => setMade(await makeReporter(site, name))))) return;
    setName("");
    onMade();
  };
  return (
    <form class="more-form" onSubmit={(event) => void submit(event)}>
      <TextField
        label={t("Name of a new reporter")}
        hint={t("A controller, a meter or a gateway. The journal names it so. Its token is shown once.")}
        value={name}
        most={LONGEST_NAME}
        fault={fieldFault(doing.fault, "name")}
        onChange={setName}
      />
      <button type="submit" class="button button-strong" disabled={doing.busy || !name.trim()}>
        {t("Let it report")}
      </button>
      <FaultLine fault={doing.fault} />
    </form>
  );
}

interface ReporterRowProps {
  site: string;
  reporter: Reporter;
  onEnded: () => void;
}

function ReporterRow({ site, reporter, onEnded }: ReporterRowProps) {
  const doing = useDoing();
  const { id, name, heard_at, taken, aside } = reporter;
  const act = async () => {
    if (await doing.run(() => endReporter(site, id))) onEnded();
  };
  return (
    <li class="more-row">
      <span class="more-row-what">
        <span class="more-row-name">
          <bdi>{name}</bdi>
        </span>
        <span class="more-row-under reporter-line">
          {heard_at === null ? t("Not heard yet") : t("Last heard {time}", { time: whenHere(heard_at, Date.now()) })}
        </span>
        <span class="more-row-under reporter-line">{tn("{count} entry taken", "{count} entries taken", taken)}</span>
        {aside ? (
          <span class="more-row-under reporter-line">{tn("{count} kept aside", "{count} kept aside", aside)}</span>
        ) : null}
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
