/** Keeps the screen on while water runs, where the browser can (W3C Screen Wake Lock API). */

/** Until the answer is called. The browser lets go of it while the page is out of sight, and it is asked for again. */
export function keepAwake(): () => void {
  let held: WakeLockSentinel | null = null;
  let wanted = true;
  const ask = async () => {
    if (!wanted || document.visibilityState !== "visible" || (held && !held.released)) return;
    // A low battery or an older browser refuses: then the screen goes off as it always does.
    const given = await navigator.wakeLock?.request("screen").catch(() => null);
    if (!given) return;
    if (wanted) held = given;
    else await given.release();
  };
  const again = () => void ask();
  document.addEventListener("visibilitychange", again);
  void ask();
  return () => {
    wanted = false;
    document.removeEventListener("visibilitychange", again);
    void held?.release();
  };
}
