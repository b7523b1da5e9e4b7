/** All short texts on one page, and the longer ones behind it. */

import { go, ROOMS } from "../way/way";
import { t } from "../words/catalogue";
import "../look/help.css";
import { helpFor } from "./texts";

export function HelpPage() {
  return (
    <>
      <div class="more-ways">
        <button type="button" class="button" onClick={() => go("more", "first-steps")}>
          {t("First steps")}
        </button>
        <button type="button" class="button" onClick={() => go("more", "lost-phone")}>
          {t("A phone is lost")}
        </button>
        <button type="button" class="button" onClick={() => go("more", "cautions")}>
          {t("Cautions")}
        </button>
      </div>
      <div class="help-texts">
        {ROOMS.map((room) => (
          <HelpText key={room} text={helpFor(room)} />
        ))}
      </div>
    </>
  );
}

function HelpText({ text }: { text: ReturnType<typeof helpFor> }) {
  return (
    <section class="help-text">
      <h2 class="more-title">{text.title}</h2>
      <ul>
        {text.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}
