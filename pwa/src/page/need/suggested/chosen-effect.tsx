/** What the chosen suggestions do to tonight, and the foot that keeps them as one set. */

import { KeepBar } from "../../edits/keep-bar";
import { EffectView } from "../../effect/effect-view";
import { nightTitle } from "../../effect/phrases";
import { useEffectOf } from "../../effect/watching";
import { effectWords } from "../../records/effect-words";
import { t, tn } from "../../words/catalogue";
import { changesFor, type Suggestion } from "./suggestions";

interface ChosenEffectProps {
  chosen: readonly Suggestion[];
  onDone: () => void;
}

export function ChosenEffect({ chosen, onDone }: ChosenEffectProps) {
  const changes = changesFor(chosen);
  const effect = useEffectOf(changes, null);
  const count = chosen.length;
  return (
    <>
      <div class="suggested-effect">
        <EffectView state={effect} changes={changes} title={nightTitle} turn={null} />
      </div>
      <KeepBar
        changes={changes}
        gist={effectWords(effect)}
        said={() => tn("Took the suggestion for {count} program.", "Took the suggestions for {count} programs.", count)}
        back={t("Choose none")}
        onBack={onDone}
        keep={tn("Take {count} suggestion", "Take {count} suggestions", count)}
        onKept={onDone}
      />
    </>
  );
}
