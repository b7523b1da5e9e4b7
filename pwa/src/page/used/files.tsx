/** The figures to take along. */

import { t } from "../words/catalogue";
import { language } from "../words/reader";
import { type By, fileOf } from "./asking";
import { yearName } from "./words";

export function Files({ year, by }: { year: number; by: By }) {
  return (
    <div class="used-files">
      {(["csv", "xlsx"] as const).map((kind) => (
        <a
          key={kind}
          class="button"
          href={fileOf(year, by, kind, language.value)}
          download={`used-${year}-${by}.${kind}`}
        >
          {kind === "csv"
            ? t("{year} as a table (CSV)", { year: yearName(year) })
            : t("{year} as a book (XLSX)", { year: yearName(year) })}
        </a>
      ))}
    </div>
  );
}
