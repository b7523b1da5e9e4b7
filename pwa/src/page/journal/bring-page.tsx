/** Bring a CSV file into the journal: what a meter or a controller exports, or a list somebody kept. Needs signal. */

import "../look/senders.css";
import { useId, useState } from "preact/hooks";
import { sendContent } from "../line/fetching";
import { useDoing } from "../more/doing";
import { FaultLine } from "../more/fault-line";
import { CopyButton } from "../senders/copy-button";
import type { SiteDocument } from "../site/document";
import { copy, mayEdit, site } from "../store/queries";
import { t } from "../words/catalogue";
import { language } from "../words/reader";
import { type BroughtAnswer, BroughtList } from "./brought-list";
import { AS_IT_STANDS, exampleFor, headingsOf, MOST_BYTES, pathFor, type Reading } from "./csv-file";
import { followJournal } from "./following";
import { ReadingFields } from "./reading-fields";

interface Chosen {
  file: File;
  headings: string[];
}

export function BringPage() {
  const document = site.value;
  if (!document) return <p class="more-note">{t("No site is on this phone yet.")}</p>;
  if (!mayEdit.value) return <p class="more-note">{t("Leads and managers of this site bring files in.")}</p>;
  return (
    <div class="journal">
      <h2 class="more-title">{t("Bring in a CSV file")}</h2>
      <p class="more-note">
        {t("What a meter or a controller has written down, or a list of your own. Brought in twice it counts once.")}
      </p>
      <BringForm document={document} />
      <Example document={document} />
    </div>
  );
}

function BringForm({ document }: { document: SiteDocument }) {
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [reading, setReading] = useState<Reading>(AS_IT_STANDS);
  const [brought, setBrought] = useState<BroughtAnswer | null>(null);
  const doing = useDoing();
  const choose = async (file: File | undefined) => {
    if (!file) return;
    setBrought(null);
    setReading({ ...AS_IT_STANDS });
    setChosen({ file, headings: await headingsOf(file) });
  };
  const submit = async (event: Event) => {
    event.preventDefault();
    if (!chosen) return;
    setBrought(null);
    const path = pathFor(copy.peek()?.site ?? "", reading);
    const send = () => sendContent<BroughtAnswer>(path, chosen.file, "text/csv", language.peek());
    if (await doing.run(async () => setBrought(await send()))) followJournal(true);
  };
  const isLarge = (chosen?.file.size ?? 0) > MOST_BYTES;
  return (
    <form class="more-form" onSubmit={(event) => void submit(event)}>
      <FileField name={chosen?.file.name ?? ""} disabled={doing.busy} onChoose={(file) => void choose(file)} />
      {isLarge ? <p class="more-fault">{t("This file is too large: 2 MB is the most. Cut it into several.")}</p> : null}
      {chosen && !isLarge ? (
        <>
          <ReadingFields headings={chosen.headings} document={document} reading={reading} onChange={setReading} />
          <button type="submit" class="button button-strong" disabled={doing.busy}>
            {doing.busy ? t("Bringing it in…") : t("Bring it in")}
          </button>
        </>
      ) : null}
      <FaultLine fault={doing.fault} />
      <ul class="aside-reasons">
        {doing.fault?.fields
          .filter((one) => one.field)
          .map((one) => (
            <li key={one.detail}>{one.detail}</li>
          ))}
      </ul>
      {brought ? <BroughtList brought={brought} /> : null}
    </form>
  );
}

interface FileFieldProps {
  name: string;
  disabled: boolean;
  onChoose: (file: File | undefined) => void;
}

function FileField({ name, disabled, onChoose }: FileFieldProps) {
  const id = useId();
  return (
    <div class="csv-file">
      <label class="button" for={id}>
        <input
          id={id}
          class="csv-input"
          type="file"
          accept=".csv,.tsv,.txt,text/csv"
          disabled={disabled}
          onChange={(event) => {
            onChoose(event.currentTarget.files?.[0]);
            event.currentTarget.value = "";
          }}
        />
        {name ? t("Choose another file") : t("Choose a file")}
      </label>
      {name ? (
        <p>
          <bdi>{name}</bdi>
        </p>
      ) : null}
    </div>
  );
}

function Example({ document }: { document: SiteDocument }) {
  const example = exampleFor(document, t("Wet by the gate"));
  return (
    <section class="sent-how" aria-label={t("What such a file looks like")}>
      <h3 class="more-title">{t("What such a file looks like")}</h3>
      <p>
        {t(
          "A heading a column, an entry a line. Times are the site’s own. A station stands there by its number, a supply by its name. Flows are in L/min and counters in L, unless you say otherwise above.",
        )}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard */}
      <section class="csv-example" aria-label={t("An example")} tabIndex={0}>
        <pre dir="ltr">{example}</pre>
      </section>
      <CopyButton text={example} label={t("Copy the example")} />
    </section>
  );
}
