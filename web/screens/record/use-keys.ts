import { useEffect, useRef } from "preact/hooks";

/** Listens for single letters outside fields and dialogs, without modifier keys. `isOn` false switches them off. */
export function useKeys(on: Readonly<Record<string, () => void>>, isOn = true): void {
  const latest = useRef(on);
  latest.current = on;
  useEffect(() => {
    if (!isOn) return undefined;
    const listen = (event: KeyboardEvent) => {
      const target = event.target as HTMLElement | null;
      const isField = target?.closest("input, select, textarea, dialog, [contenteditable]");
      if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || isField) return;
      latest.current[event.key]?.();
    };
    window.addEventListener("keydown", listen);
    return () => window.removeEventListener("keydown", listen);
  }, [isOn]);
}
