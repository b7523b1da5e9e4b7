/** What a code is and how to use it; on an iPhone or iPad also why the label bears a short one. */

import { helpFor } from "../help/texts";
import { t } from "../words/catalogue";
import { isApple } from "./device-name";

export function JoinAbout() {
  return (
    <aside class="join-about" aria-label={t("About codes")}>
      {helpFor("join").lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {isApple(navigator.userAgent, navigator.maxTouchPoints > 1) ? (
        <p>
          {t(
            "On an iPhone or iPad the installed app and the browser keep apart what they hold. To come in inside the installed app, open it and type the short code on the label.",
          )}
        </p>
      ) : null}
    </aside>
  );
}
