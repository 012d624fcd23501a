import { uuidV7 } from "../../server/ledger/uuid-v7.ts";

/**
 * A bench as a process of its own: it moves its pieces between two places over HTTP, several acts at once, and sends
 * an act again under the same id until it is answered. Each answer goes to standard output, where another process
 * keeps it; it ends when its standard input does, once each act that it began is answered.
 */
interface BenchPlan {
  readonly address: string;
  readonly cookie: string;
  /** Pieces that are moved together; each list by a hand of its own. */
  readonly hands: readonly (readonly string[])[];
  readonly places: readonly string[];
}

/** What the bench says of one act, in a line of JSON. */
export type BenchWord =
  | {
      readonly acknowledged: string;
      readonly position: number;
      readonly entries: number;
      readonly sendings: number;
    }
  | { readonly refused: string; readonly code: string };

const PAUSE_MS = 50;
const ANSWER_WITHIN_MS = 10_000;

let isEnding = false;
process.stdin.on("end", () => {
  isEnding = true;
});
process.stdin.resume();

const plan = JSON.parse(process.argv[2] ?? "") as BenchPlan;
await Promise.all(plan.hands.map(work));

async function work(pieces: readonly string[], hand: number): Promise<void> {
  for (let count = 0; !isEnding; count += 1) {
    const at = Date.now();
    const body = JSON.stringify({
      ...{ id: uuidV7(at), device: `bench ${hand}`, deviceSeq: count, appBuild: "kill test" },
      ...{ at: new Date(at).toISOString(), atOffsetMin: 0, sentAt: new Date(at).toISOString() },
      command: {
        pieces: pieces.map((piece) => ({ piece, evidence: "scanned" })),
        to: { kind: "place", id: plan.places[count % plan.places.length] },
        purpose: "transfer",
      },
    });
    await sendUntilAnswered(body);
  }
}

async function sendUntilAnswered(body: string): Promise<void> {
  for (let sendings = 1; ; sendings += 1) {
    const answer = await sendOnce(body);
    if (answer?.status === 200) {
      const written = JSON.parse(answer.text) as { id: string; position: number; entries: unknown[] };
      const { id, position, entries } = written;
      say({ acknowledged: id, position, entries: entries.length, sendings });
      return;
    }
    if (answer && answer.status < 500) {
      const { id } = JSON.parse(body) as { id: string };
      const { code } = JSON.parse(answer.text) as { code: string };
      say({ refused: id, code });
      return;
    }
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  }
}

async function sendOnce(body: string): Promise<{ status: number; text: string } | undefined> {
  try {
    const response = await fetch(`${plan.address}/api/acts/movePieces`, {
      method: "POST",
      headers: { "content-type": "application/json", origin: plan.address, cookie: plan.cookie },
      body,
      signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
    });
    return { status: response.status, text: await response.text() };
  } catch {
    return undefined;
  }
}

function say(word: BenchWord): void {
  process.stdout.write(`${JSON.stringify(word)}\n`);
}
