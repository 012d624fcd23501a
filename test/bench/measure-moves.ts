import { sql } from "kysely";
import type { PieceId, PlaceId } from "../../server/domain/ids.ts";
import { type BenchHouse, startHand } from "./bench-house.ts";
import { type Figure, type Measured, saySpread, sumUp } from "./figures.ts";
import type { Moved, MovingPlan, MovingRound } from "./hands/moving.ts";

/** By clients at once: the least share of what plain inserts come to, and the fewest acts a second. */
const BUDGET: readonly { clients: number; sharePercent?: number; perSecond?: number }[] = [
  { clients: 1, sharePercent: 10, perSecond: 250 },
  { clients: 4, sharePercent: 10 },
  { clients: 16, perSecond: 500 },
];
const TWENTY = { pieces: 20, clients: 4, sharePercent: 50 };
const LARGE = { pieces: 500, ms: 300 };

/**
 * One-piece moves beside plain inserts of the same bytes: one row and one commit each, through the same driver, into a
 * table with a key and nothing else. They take turns in short rounds, so that both meet the same machine.
 */
export async function measureMoves(house: BenchHouse, seconds: number): Promise<Measured> {
  const round = (what: MovingRound["what"], clients: number, piecesAnAct = 1): MovingRound => {
    return { what, clients, piecesAnAct, seconds: seconds / 3 };
  };
  const kinds = BUDGET.flatMap(({ clients }) => [
    round("plain inserts", clients),
    round("acts", clients),
    round("acts over HTTP", clients),
  ]);
  const twenty = [round("plain inserts", TWENTY.clients), round("acts", TWENTY.clients, TWENTY.pieces)];
  const large = [{ ...round("acts", 1, LARGE.pieces), seconds: seconds / 2 }];
  const warmUp = [
    { ...round("acts", 4), seconds: 2 },
    { ...round("acts over HTTP", 4), seconds: 2 },
  ];
  const rounds = [...kinds, ...twenty];
  const order = [...warmUp, ...rounds, ...rounds, ...rounds, ...large];
  const moved = (await moveAsPlanned(house, order)).slice(warmUp.length);
  const came = (index: number): Moved => joined([0, 1, 2].map((turn) => moved[turn * rounds.length + index]));
  const figures = BUDGET.flatMap((budget, index) =>
    besidePlain(budget, came(index * 3), came(index * 3 + 1), came(index * 3 + 2)),
  );
  const plain = came(kinds.length);
  const twenties = came(kinds.length + 1);
  return { part: "moves", figures: [...figures, ofTwenty(plain, twenties), ofLarge(moved.at(-1))] };
}

async function moveAsPlanned(house: BenchHouse, rounds: readonly MovingRound[]): Promise<readonly Moved[]> {
  const { app, owner, address, cookie, appUrl, register } = house;
  await sql`create table bench_plain (subject uuid, version int, subject_kind text, act uuid, n int, kind text,
    bytes bytea, primary key (subject, version))`.execute(owner);
  await sql`grant insert on bench_plain to layertrail_app`.execute(owner);
  const loose = await sql<{
    id: PieceId;
  }>`select id from piece where kind in ('hood', 'glove-pair', 'boot-pair')
    and holder_kind = 'place' and not soiled order by md5(id::text) limit 30000`.execute(app);
  const stations = await sql<{
    id: PlaceId;
  }>`select id from place where what = 'station' order by id`.execute(app);
  const moves = await sql<{ body: string }>`select encode(bytes, 'base64') as body from entry
    where kind = 'PieceMoved' limit 1`.execute(app);
  const plan: MovingPlan = {
    ...{ address, cookie, appUrl, rounds, by: register.account, body: moves.rows[0]?.body ?? "" },
    pieces: loose.rows.map(({ id }) => id),
    places: stations.rows.map(({ id }) => id),
  };
  const moved = await startHand<readonly Moved[]>("moving", plan).result;
  await sql`drop table bench_plain`.execute(owner);
  return moved;
}

function joined(rounds: readonly (Moved | undefined)[]): Moved {
  return {
    waits: rounds.flatMap((round) => round?.waits ?? []),
    seconds: rounds.reduce((sum, round) => sum + (round?.seconds ?? 0), 0),
  };
}

const rate = ({ waits, seconds }: Moved): number => waits.length / seconds;
const who = (clients: number) => (clients === 1 ? "1 client" : `${clients} clients`);

function besidePlain(
  { clients, sharePercent, perSecond }: (typeof BUDGET)[number],
  plain: Moved,
  acts: Moved,
  overHttp: Moved,
): Figure[] {
  const share = (100 * rate(acts)) / rate(plain);
  return [
    {
      ...{ what: `one-piece moves, ${who(clients)}`, value: rate(acts), unit: "/s" },
      ...(perSecond === undefined ? {} : { target: { is: "at least", value: perSecond } as const }),
      note: saySpread(sumUp(acts.waits)),
    },
    {
      ...{ what: `  of ${Math.round(rate(plain))} plain inserts a second`, value: share, unit: "%" },
      ...(sharePercent === undefined ? {} : { target: { is: "at least", value: sharePercent } as const }),
      note: "one row of the same bytes a commit",
    },
    {
      ...{ what: "  through the running server", value: rate(overHttp), unit: "/s" },
      note: saySpread(sumUp(overHttp.waits)),
    },
  ];
}

function ofTwenty(plain: Moved, acts: Moved): Figure {
  const entries = rate(acts) * TWENTY.pieces;
  return {
    what: `entries of acts of ${TWENTY.pieces}, ${who(TWENTY.clients)}`,
    ...{ value: (100 * entries) / rate(plain), unit: "%" },
    target: { is: "at least", value: TWENTY.sharePercent },
    note: `${Math.round(entries)} entries a second, of ${Math.round(rate(plain))} plain inserts`,
  };
}

function ofLarge(acts: Moved = { waits: [], seconds: 0 }): Figure {
  const waits = sumUp(acts.waits);
  return {
    ...{ what: `act of ${LARGE.pieces} pieces, median`, value: waits.p50, unit: "ms" },
    target: { is: "at most", value: LARGE.ms },
    note: saySpread(waits),
  };
}
