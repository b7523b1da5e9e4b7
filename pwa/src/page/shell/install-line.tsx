/** How to put the app on the home screen, in this browser. */

import { t } from "../words/catalogue";
import { install, installWay } from "./installing";

export function InstallLine() {
  return (
    <div class="shell-line">
      <p>{installWords()}</p>
      {installWay.value === "prompt" ? (
        <button type="button" class="button" onClick={() => void install()}>
          {t("Install the app")}
        </button>
      ) : null}
    </div>
  );
}

function installWords(): string {
  const ways = {
    installed: t("The app is installed on this device."),
    prompt: t("Installed, the app opens from the home screen, without signal too."),
    share: t("To install the app, tap Share, then Add to Home Screen. Sign in there again with a code."),
    menu: t("To install the app, choose Install or Add to Home screen in the browser's menu."),
  };
  return ways[installWay.value];
}
