/** Who uses this phone, as what and where; and the way in where that is nobody. */

import { KeepingLine } from "../shell/keeping-line";
import { lineWords } from "../shell/line-words";
import { OfflineLine } from "../shell/offline-line";
import { copy, line, person, site, unsentCount } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { roleName } from "./role-words";
import { SiteSwitch } from "./site-switch";

export function Overview() {
  const who = person.value;
  return (
    <>
      {who ? <Card name={who.name} /> : <Stranger />}
      <SiteSwitch />
      <section class="more-lines" aria-label={t("This phone")}>
        <OfflineLine />
        <KeepingLine />
      </section>
    </>
  );
}

function Card({ name }: { name: string }) {
  return (
    <section class="who" aria-label={t("You")}>
      <h2 class="who-name">
        <bdi>{name}</bdi>
      </h2>
      <p>
        {copy.value ? t("{role} at {site}", { role: roleName(copy.value.role), site: site.value?.name ?? "" }) : ""}
      </p>
      <p class="who-line">{lineWords(line.value, unsentCount.value)}</p>
    </section>
  );
}

function Stranger() {
  return (
    <section class="who" aria-label={t("You")}>
      <h2 class="who-name">{t("Nobody is signed in on this phone")}</h2>
      <p>{t("You can read what is open to everybody. To change anything, come in with a code from your manager.")}</p>
      <div class="more-ways">
        <button type="button" class="button button-brass" onClick={() => go("join")}>
          {t("Come in with a code")}
        </button>
        <button type="button" class="button" onClick={() => go("join", "sign-in")}>
          {t("Sign in with a password")}
        </button>
      </div>
    </section>
  );
}
