import type { Client } from "../../api/client.ts";
import type { MeOnWire } from "../../api/wire.ts";
import type { Words } from "../../look/words.ts";
import type { Clock } from "../bench/look-up-panel.tsx";
import type { Frame } from "../record/frame.ts";

/** What every form page is given. */
export interface FormScreenProps {
  readonly client: Client;
  readonly me: MeOnWire;
  readonly say: Words;
  readonly clock: Clock;
  readonly frame: Frame;
}
