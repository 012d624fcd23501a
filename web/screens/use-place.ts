import { useEffect, useState } from "preact/hooks";
import { type AppPlace, placeOf } from "./place-in-app.ts";

const MOVED = "layertrail-moved";

/** Opens an address of the program without loading the page anew: what is on the tray stays. */
export function goTo(address: string): void {
  history.pushState(null, "", address);
  window.dispatchEvent(new Event(MOVED));
}

/** Follows the browser's address, and takes over clicks on links of the program. */
export function usePlace(): AppPlace {
  const [place, setPlace] = useState(() => placeOf(location.pathname, location.hash));
  useEffect(() => {
    const follow = () => setPlace(placeOf(location.pathname, location.hash));
    const click = (event: MouseEvent) => {
      const link = (event.target as Element | null)?.closest?.("a[href]");
      const address = link?.getAttribute("href");
      const isPlain = event.button === 0 && !event.ctrlKey && !event.metaKey && !event.shiftKey;
      const leaves = link?.hasAttribute("download") || link?.hasAttribute("target");
      if (!address?.startsWith("/") || address.startsWith("/api/") || leaves || !isPlain) return;
      event.preventDefault();
      goTo(address);
    };
    window.addEventListener("popstate", follow);
    window.addEventListener(MOVED, follow);
    document.addEventListener("click", click);
    return () => {
      window.removeEventListener("popstate", follow);
      window.removeEventListener(MOVED, follow);
      document.removeEventListener("click", click);
    };
  }, []);
  return place;
}
