import { nameOf, type SubjectNames } from "../phrase.ts";
import type { Holder } from "./holder.ts";

/** Says where a piece is or was, to stand after "it is": "at Rack C1", "with Mirela Ferro", "in transit". */
export function sayCustody(holder: Holder, names: SubjectNames): string {
  switch (holder.kind) {
    case "place":
      return `at ${nameOf(names, holder.id)}`;
    case "member":
    case "provider":
    case "outside":
      return `with ${nameOf(names, holder.id)}`;
    case "in transit":
      return "in transit";
    case "whereabouts unknown":
      return "at a place that is not known";
  }
}
