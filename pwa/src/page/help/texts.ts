/** The short text on each room: what it is for, and what can be done there. */

import type { RoomName } from "../way/way";
import { t } from "../words/catalogue";

export interface HelpText {
  title: string;
  lines: string[];
}

export function helpFor(room: RoomName): HelpText {
  const texts: Record<RoomName, () => HelpText> = {
    tonight,
    stations,
    ahead,
    changes,
    more,
    site,
    need,
    "wet-check": wetCheck,
    join,
  };
  return texts[room]();
}

function tonight(): HelpText {
  return {
    title: t("Tonight"),
    lines: [
      t("At the top stands when water comes next, where and for how long."),
      t(
        "The picture is the night as flow over time. A block is one run: its width is its time, its height its flow, its area its water. The line above is the most the supply gives.",
      ),
      t("Tap a block or a row to see why it runs then. Hatched time is closed; dashed blocks did not fit."),
      t(
        "Swipe, or use the buttons or arrow keys, for the other nights. A table under the picture says the same in words.",
      ),
    ],
  };
}

function stations(): HelpText {
  return {
    title: t("Stations"),
    lines: [
      t("Find a station by its number, its name or its part of the grounds."),
      t("Open one to change its run time, or choose several and change them by a percentage."),
      t("Before you keep a change, you see what it does to tonight. Everything works without signal."),
      t("Take a change back with Undo, for as long as it is offered, or later in Changes."),
    ],
  };
}

function ahead(): HelpText {
  return {
    title: t("Ahead"),
    lines: [
      t("The next fourteen nights at a glance: which programs water, how full each night is, and what does not fit."),
      t("Tap a night or a program to see why."),
      t("A night is named by the day on which it begins, and lasts from noon to noon."),
    ],
  };
}

function wetCheck(): HelpText {
  return {
    title: t("Wet check"),
    lines: [
      t("A walk through stations, one at a time, with the water on: what is broken is noted down where it is seen."),
      t("The time runs by this phone alone. Open and close the valves by the means your site has for it."),
      t("What is found stands in the journal, and among the repairs until somebody has seen to it."),
      t("Everything works without signal, and a walk goes on where it was after a pause or a reload."),
    ],
  };
}

function changes(): HelpText {
  return {
    title: t("Changes"),
    lines: [
      t("Unsent: kept safely on this phone. It is sent by itself as soon as there is signal."),
      t(
        "Disputed: two people set the same value without knowing of each other. Until somebody chooses, the value in force stays.",
      ),
      t("Held: your role had changed when it arrived. A manager decides."),
      t("Refused: it broke a limit, which is named. Nothing you typed is lost: mend it and keep it again."),
    ],
  };
}

function more(): HelpText {
  return {
    title: t("More"),
    lines: [
      t("Who uses this phone, the team and its invitations, your devices and your settings."),
      t("Lists of people and devices come from the server: without signal you see the last ones."),
    ],
  };
}

function site(): HelpText {
  return {
    title: t("Site records"),
    lines: [
      t(
        "Everything the night is planned from: supplies, controllers, stations, hydrozones, programs, water windows, closures.",
      ),
      t("Each record is a page. What is wrong with it is said beside the field, everything at once."),
      t("Removing a record can be undone."),
    ],
  };
}

function need(): HelpText {
  return {
    title: t("Water need"),
    lines: [
      t("Here the weather becomes millimetres, minutes and money, and every figure can be traced."),
      t("Suggested percentages follow the season. You see what they do to tonight before you take them."),
      t("The budget holds the year’s water against what the ordinance allows."),
      t("All figures are planning aids. The water authority’s rules and local law stand above them."),
    ],
  };
}

function join(): HelpText {
  return {
    title: t("Come in"),
    lines: [
      t("A code lets one device in, once. Your manager makes it; you make one yourself for your own next device."),
      t(
        "Type it, hold its QR code in front of the camera, or choose a picture of it. Coming in needs signal; afterwards work goes on without.",
      ),
    ],
  };
}
