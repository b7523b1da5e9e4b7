/** The usual cautions of the trade, in one place. */

import { t } from "../words/catalogue";
import "../look/help.css";

export function Cautions() {
  return (
    <>
      <p class="caution-lead">
        {t("The plan is not the valve. It knows nothing of people on the grounds, of leaks, or of work in progress.")}
      </p>
      <div class="help-texts">
        <Caution
          title={t("People and water")}
          lines={[
            t(
              "Valves may open at any time of the night, and by day where somebody asks for a run. Look before you ask.",
            ),
            t("Wet paths are slippery. Close paths or choose another hour where people walk."),
            t("Spray near roads, power lines or electrical cabinets needs the care your site’s rules ask for."),
          ]}
        />
        <Caution
          title={t("Pressure")}
          lines={[
            t(
              "Pipes, filters and pumps stay under pressure when no valve is open. Shut off, drain and check before opening anything.",
            ),
            t("Open slowly: water hammer breaks pipes. Never stand over a fitting you are opening."),
          ]}
        />
        <Caution
          title={t("Electricity")}
          lines={[
            t("Cabinets hold mains beside 24 V wiring. Switch off, lock out and test before you open one."),
            t(
              "Work inside is for qualified people under your local electrical code. Wet hands and open cabinets do not go together.",
            ),
          ]}
        />
        <Caution
          title={t("Reclaimed water")}
          lines={[
            t(
              "It is not for drinking, washing or play. Keep people away while it runs, and its pipes and boxes marked.",
            ),
            t("Keep to the hours, distances and backflow protection your water authority asks for."),
          ]}
        />
        <Caution
          title={t("Rules and licences")}
          lines={[
            t(
              "Local codes and drought orders come first, whatever is planned here. Put them in as windows and closures.",
            ),
            t("Plumbing, backflow testing and electrical work are for licensed people where the law says so."),
          ]}
        />
      </div>
    </>
  );
}

function Caution({ title, lines }: { title: string; lines: string[] }) {
  return (
    <section class="help-text help-caution">
      <h2 class="more-title">{title}</h2>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}
