/** A sound for whoever looks at heads and not at the phone: some phones cannot be felt, and none through wet gloves. */

let context: AudioContext | null = null;

/** Browsers let a page sound only after a press: call it in one. Where there is no sound, the words tell it. */
export function readySound(): void {
  try {
    context ??= new AudioContext();
    void context.resume().catch(() => undefined);
  } catch {
    context = null;
  }
}

const TONE_HZ = 880;
const BEEPS_S = [0, 0.35, 0.7];
const BEEP_S = 0.2;

/** Three short beeps. Nothing where `readySound` was not called, as after a reload. */
export function ring(): void {
  if (context?.state !== "running") return;
  for (const after of BEEPS_S) {
    const tone = context.createOscillator();
    tone.frequency.value = TONE_HZ;
    tone.connect(context.destination);
    tone.start(context.currentTime + after);
    tone.stop(context.currentTime + after + BEEP_S);
  }
}
