/** What runs here and on the server, and whether this phone is ready for a day without signal. */

import { version } from "../../../package.json";
import { planner } from "../planner/planner";
import { InstallLine } from "../shell/install-line";
import { KeepingLine } from "../shell/keeping-line";
import { OfflineLine } from "../shell/offline-line";
import { kept } from "../shell/registering";
import { person } from "../store/queries";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { serverVersions } from "./crew";
import { NeedsSignal } from "./needs-signal";
import { useKnown } from "./use-known";

const PYODIDE = "https://github.com/pyodide/pyodide";

export function About() {
  const list = serverVersions();
  const signedIn = person.value !== null;
  const known = useKnown(list, signedIn);
  const there = known.items;
  return (
    <>
      <section class="more-lines" aria-label={t("Without signal")}>
        <OfflineLine />
        <div class="shell-line">
          <p>{plannerWords()}</p>
        </div>
        <KeepingLine />
        <InstallLine />
      </section>
      <dl class="more-facts">
        <Fact name={t("App on this phone")} value={kept.value ? `${version} · ${kept.value.version}` : version} />
        <Fact name={t("Server")} value={there?.version} />
        <Fact name={t("Planning engine")} value={there?.planner} />
        <Fact name={t("Time zone data")} value={there?.zone_data} />
      </dl>
      {signedIn ? <NeedsSignal known={known} reload={() => void list.load()} /> : null}
      <p class="more-note">
        {t("The planner runs on Pyodide, under the Mozilla Public License 2.0. Its source: {address}", {
          address: PYODIDE,
        })}
      </p>
      <p class="more-note">{t("The typefaces are Sofia Sans and Vazirmatn, under the SIL Open Font License 1.1.")}</p>
      <p class="more-note">
        {t("A pengan is the pierced bowl with which villages once timed each farmer’s turn of water.")}
      </p>
    </>
  );
}

function Fact({ name, value }: { name: string; value: string | undefined }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <bdi dir="ltr">{value ?? "–"}</bdi>
      </dd>
    </div>
  );
}

function plannerWords(): string {
  const { is, progress } = planner.value;
  if (is === "ready") return t("The planner is on this phone: effects are shown without signal too.");
  if (is === "absent") return t("This browser cannot run the planner: effects are known after sync.");
  if (is === "loading") return t("The planner is being loaded: {share} %.", { share: figure(progress * 100, 0) });
  return t("The planner is not loaded yet.");
}
