/** What the server sends has to have what the page reads. Types alone: where it has not, this file fails to compile. */

import type { HistoryPage, Notice } from "../changes/book";
import type { Device, Invitation, Invited, SiteLine, TeamMember, Versions } from "../more/crew";
import type { Session } from "../more/session";
import type { NightNeed, Season, Work } from "../need/told/shapes";
import type { MadeStation, WeatherStation } from "../need/weather/station-api";
import type { NightSheet } from "../night/sheet";
import type { ClockData } from "../site/clock";
import type { Page } from "../store/pulled";
import type { Answer, Waiting } from "../store/shapes";
import type { Greeting } from "../sync/round";
import type * as api from "./api";

type Bare<Value> = NonNullable<Value>;

/**
 * The paths of what is read and not sent, or sent as something else; `never` where there is none. The page may know more
 * closely than the description says what is in a field, and whether it may be left out; it may not read a field more.
 */
type Clash<Sent, Read, Path extends string = ""> =
  Bare<Read> extends readonly (infer ReadItem)[]
    ? Bare<Sent> extends readonly (infer SentItem)[]
      ? Clash<SentItem, ReadItem, `${Path}[]`>
      : Path
    : Bare<Read> extends object
      ? ClashOfFields<Bare<Sent>, Bare<Read>, Path>
      : Bare<Sent> extends Bare<Read>
        ? never
        : Bare<Read> extends Bare<Sent>
          ? never
          : Path;

type ClashOfFields<Sent, Read, Path extends string> = string extends keyof Sent | keyof Read
  ? never
  : {
      [Field in keyof Read & string]-?: Field extends keyof Sent
        ? Clash<Sent[Field], Read[Field], `${Path}.${Field}`>
        : `${Path}.${Field}`;
    }[keyof Read & string];

type Nothing<None extends never> = None;

export type Agreement = [
  Nothing<Clash<api.About, Versions>>,
  Nothing<Clash<api.Answer, Answer>>,
  Nothing<Clash<api.Device, Device>>,
  Nothing<Clash<api.HelloAnswer, Greeting>>,
  Nothing<Clash<api.History, HistoryPage>>,
  Nothing<Clash<api.Invitation, Invitation>>,
  Nothing<Clash<api.Invited, Invited>>,
  Nothing<Clash<api.MadeWeatherStation, MadeStation>>,
  Nothing<Clash<api.NightClock, ClockData>>,
  Nothing<Clash<api.NightNeed, NightNeed>>,
  Nothing<Clash<api.NightSheet, NightSheet>>,
  Nothing<Clash<api.Notice, Notice>>,
  Nothing<Clash<api.Person, TeamMember>>,
  Nothing<Clash<api.PullAnswer, Page>>,
  Nothing<Clash<api.Season, Season>>,
  Nothing<Clash<api.Session, Session>>,
  Nothing<Clash<api.Site, SiteLine>>,
  Nothing<Clash<api.Waiting, Waiting>>,
  Nothing<Clash<api.WeatherStation, WeatherStation>>,
  Nothing<Clash<api.Work, Work>>,
];
