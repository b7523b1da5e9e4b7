/** Coming in: by a code that is typed, scanned or read off a picture, or with a manager's name and password. */

import { useEffect } from "preact/hooks";
import "../look/more.css";
import "../look/people.css";
import { person } from "../store/queries";
import { RoomHead } from "../way/room-head";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { typedCode } from "./codes";
import { putDraft } from "./coming-in";
import { JoinAbout } from "./join-about";
import { JoinForm } from "./join-form";
import { SignInForm } from "./sign-in-form";

export function Room({ words }: { words: string[] }) {
  useEffect(takeCodeFromAddress, []);
  const byPassword = words[0] === "sign-in";
  return (
    <main class="more more-inside">
      <RoomHead title={byPassword ? t("Sign in") : t("Come in")} back="more" />
      <div class="more-join">
        {person.value ? <p class="more-note">{t("You are in as {name}.", { name: person.value.name })}</p> : null}
        {byPassword ? <SignInForm /> : <JoinForm />}
        <button type="button" class="button" onClick={() => (byPassword ? go("join") : go("join", "sign-in"))}>
          {byPassword ? t("Come in with a code instead") : t("I am a manager and have a password")}
        </button>
        <JoinAbout />
      </div>
    </main>
  );
}

/** A code in the address is good once: it is taken out, so that no history of the browser keeps it. */
function takeCodeFromAddress(): () => void {
  const take = () => {
    const given = decodeURIComponent(location.hash.slice(1));
    if (!given) return;
    putDraft({ code: typedCode(given).grouped });
    history.replaceState(null, "", location.pathname + location.search);
  };
  take();
  addEventListener("hashchange", take);
  return () => removeEventListener("hashchange", take);
}
