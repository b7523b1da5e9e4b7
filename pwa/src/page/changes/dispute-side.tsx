/** One side of a dispute: who, when, the value, and what it does to tonight, as a picture and in words. */

import { EffectPicture } from "../effect/effect-picture";
import { EffectShort } from "../effect/effect-short";
import "../look/effect.css";
import type { Waiting } from "../store/shapes";
import { t } from "../words/catalogue";
import { finishLine, waterLines } from "./effect-words";
import { madeWords } from "./made-words";
import { isMe, nameOf } from "./people";
import { useSide } from "./side-effect";

interface DisputeSideProps {
  one: Waiting;
  side: "mine" | "theirs";
  value: unknown;
  /** The value, as the reader has it. */
  words: string;
  /** What it was before either, as the reader has it. */
  was: string;
  /** Null: the reader may not settle it. */
  onUse: (() => void) | null;
}

/** Values up to this long are set large. */
const SHORT = 9;

export function DisputeSide({ one, side, value, words, was, onUse }: DisputeSideProps) {
  const { edit, answer } = one;
  const who = side === "mine" ? nameOf(String(edit.person ?? "")) : nameOf(answer.by, answer.by_name);
  return (
    <section class="side" data-side={side}>
      <div class="side-head">
        <div class="side-who">
          <h3>
            <bdi>{who}</bdi>
          </h3>
          <p>
            {madeWords(one, side)} {side === "theirs" ? <span class="side-force">{t("In force")}</span> : null}
          </p>
        </div>
        <p class={words.length <= SHORT ? "side-value side-large" : "side-value"}>
          <bdi>{words}</bdi>
        </p>
      </div>
      <SideEffect one={one} side={side} value={value} was={was} />
      {onUse ? (
        <button type="button" class="button side-use" onClick={onUse}>
          {words.length <= 24
            ? t("Use {value}", { value: words })
            : isMe(edit.person) && side === "mine"
              ? t("Use yours")
              : t("Use this one")}
        </button>
      ) : null}
    </section>
  );
}

function SideEffect({ one, side, value, was }: Pick<DisputeSideProps, "one" | "side" | "value" | "was">) {
  const found = useSide(one, side, value);
  if (found.is === "later") return <p class="side-later">{t("The effect is known after sync.")}</p>;
  if (found.is === "working") return <p class="side-later">{t("Working it out…")}</p>;
  const { before, figures, effect, clock, coming = false } = found.side;
  return (
    <>
      {effect ? (
        <div class="side-picture">
          <EffectPicture
            effect={effect}
            turn={one.edit.table === "turns" ? one.edit.record : null}
            beforeName={was.length <= 12 ? t("with {value}", { value: was }) : undefined}
          />
        </div>
      ) : null}
      <div class="side-words">
        <p>
          <strong>{finishLine(before, figures, clock)}</strong>
        </p>
        {waterLines(before, figures).map((line) => (
          <p key={line.text} class={line.short ? "ahead-short" : undefined}>
            {line.text}
          </p>
        ))}
        {effect ? <EffectShort effect={effect} /> : null}
        {coming ? <p class="row-under">{t("The picture is being worked out…")}</p> : null}
      </div>
    </>
  );
}
