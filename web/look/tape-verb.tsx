/** The verb of the mode line: steps down in size when it does not fit, and wraps as the last resort. */
import { useLayoutEffect, useRef } from "preact/hooks";

const STEPS = ["full", "less", "least", "wrap"] as const;

/** Draws the h1 in the largest of its sizes that fits on one line, else wrapped in the smallest. */
export function FittedVerb(props: { readonly verb: string; readonly slim: boolean }) {
  const ref = useRef<HTMLHeadingElement>(null);
  useLayoutEffect(() => {
    const heading = ref.current;
    if (heading === null) return undefined;
    const refit = () => fitHeading(heading);
    refit();
    const watch = new ResizeObserver(refit);
    if (heading.parentElement !== null) watch.observe(heading.parentElement);
    void document.fonts?.ready.then(refit);
    return () => watch.disconnect();
  }, [props.verb, props.slim]);
  return (
    <h1 class="tape-verb" ref={ref}>
      {props.verb}
    </h1>
  );
}

function fitHeading(heading: HTMLHeadingElement): void {
  for (const step of STEPS) {
    heading.dataset["fit"] = step;
    if (heading.scrollWidth <= heading.clientWidth) return;
  }
}
