/** What to do when a phone is lost, and what becomes of what was on it. */

import { copy, person } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import "../look/help.css";

export function LostPhone() {
  const manages = copy.value?.role === "manager";
  return (
    <div class="help-texts">
      <section class="help-text">
        <h2 class="more-title">{t("At once")}</h2>
        <ol class="help-numbered">
          <li>{t("If it is your own and you have another device: end the lost one under My devices.")}</li>
          <li>
            {t(
              "If not, tell a manager. They open you in Team and end the device there. It takes effect at its next word with the server.",
            )}
          </li>
          <li>
            {t(
              "The manager makes a code for a new phone. Come in with it: you are the same person, with the same role and history.",
            )}
          </li>
        </ol>
        <div class="more-ways">
          {person.value ? (
            <button type="button" class="button" onClick={() => go("more", "devices")}>
              {t("My devices")}
            </button>
          ) : null}
          {manages ? (
            <button type="button" class="button" onClick={() => go("more", "team")}>
              {t("Team")}
            </button>
          ) : null}
        </div>
      </section>
      <section class="help-text">
        <h2 class="more-title">{t("What was on it")}</h2>
        <ul>
          <li>{t("Everything that had been sent is on the server, and on your new phone after its first pull.")}</li>
          <li>
            {t(
              "What had not been sent (edits, notes and findings, photos) was on the lost phone alone. Should it turn up, leave the app on it: with signal and a new code for you it is sent.",
            )}
          </li>
          <li>
            {t(
              "Without the phone’s own lock, whoever finds it can read the site’s copy on it. They can change nothing on the server once the device is ended.",
            )}
          </li>
          <li>{t("A phone that is not used for a long time is let out by itself.")}</li>
        </ul>
      </section>
    </div>
  );
}
