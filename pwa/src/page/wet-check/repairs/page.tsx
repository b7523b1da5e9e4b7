/** What is to be mended: the list, or one repair. */

import type { SiteDocument } from "../../site/document";
import { t } from "../../words/catalogue";
import { RepairList } from "./repair-list";
import { RepairPage } from "./repair-page";

export function Repairs({ document, id }: { document: SiteDocument; id: string | null }) {
  if (id === null) return <RepairList document={document} />;
  const repair = document.record("repairs", id);
  if (!repair) return <p class="wet-note">{t("This repair is not on this phone: it may have been removed.")}</p>;
  return <RepairPage key={id} document={document} repair={repair} />;
}
