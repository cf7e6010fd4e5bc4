// Keeps the screen on while the bench sheet is looked at. Where the browser will not (plain http from another device),
// it says so.
import { useEffect, useState } from "preact/hooks";

export function useAwake(): string {
  const [words, set_words] = useState("");
  useEffect(() => {
    if (!("wakeLock" in navigator)) {
      set_words("This browser lets the screen sleep here.");
      return undefined;
    }
    let lock: WakeLockSentinel | undefined;
    let gone = false;
    const hold = async () => {
      if (document.visibilityState !== "visible" || gone) return;
      try {
        lock = await navigator.wakeLock.request("screen");
        set_words("The screen stays on.");
        if (gone) void lock.release();
      } catch {
        set_words("The screen may sleep: the device saves power.");
      }
    };
    void hold();
    document.addEventListener("visibilitychange", hold);
    return () => {
      gone = true;
      document.removeEventListener("visibilitychange", hold);
      void lock?.release();
    };
  }, []);
  return words;
}
