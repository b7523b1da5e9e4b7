/** Controllers, meters and gateways that may write into the journal. Needs signal. */

import { type Senders, SendersPage } from "../senders/senders-page";
import { t, tn } from "../words/catalogue";
import { type Reporter, reporters } from "./reporter-api";
import { ReporterCard } from "./reporter-card";

const REPORTERS: Senders<Reporter> = {
  api: reporters,
  title: () => t("Who reports"),
  forManagers: () => t("Managers of this site see who reports."),
  none: () => t("Nothing reports by itself yet."),
  newName: () => t("Name of a new reporter"),
  newHint: () => t("A controller, a meter or a gateway. The journal names it so. Its token is shown once."),
  letIn: () => t("Let it report"),
  facts: ({ taken, aside }) => [
    tn("{count} entry taken", "{count} entries taken", taken),
    ...(aside ? [tn("{count} kept aside", "{count} kept aside", aside)] : []),
  ],
  Card: ReporterCard,
};

export function ReportersPage() {
  return <SendersPage senders={REPORTERS} />;
}
