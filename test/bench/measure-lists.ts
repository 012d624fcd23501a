import { sql } from "kysely";
import type { BenchHouse } from "./bench-house.ts";
import { type Figure, type Measured, saySpread, sumUp } from "./figures.ts";
import { startAsking } from "./measure-look-up.ts";

const BUDGET_P95_MS = 100;

interface Sample {
  readonly serial: string;
  readonly number: string;
  readonly size: string;
  readonly member: string;
  readonly member_number: string;
  readonly name: string;
  readonly rack: string;
  readonly rack_name: string;
}

/** What pieces are searched and listed by; each kind of question with words from all over the register. */
const QUESTIONS: Readonly<Record<string, (one: Sample) => string>> = {
  "search by a part of a serial": ({ serial }) => `/api/pieces?q=${serial.slice(1, 6)}`,
  "search by a whole serial": ({ serial }) => `/api/pieces?q=${serial}`,
  "search by a part of a tag number": ({ number }) => `/api/pieces?q=${number.slice(3, 9)}`,
  "search by a member's name": ({ name }) => `/api/pieces?q=${encodeURIComponent(name)}`,
  "search by a family name that thousands bear": ({ name }) => `/api/pieces?q=${name.split(" ")[1]}`,
  "search by a member's number": ({ member_number }) => `/api/pieces?q=${member_number}`,
  "search by a place's name": ({ rack_name }) => `/api/pieces?q=${encodeURIComponent(rack_name)}`,
  "search by a model": () => "/api/pieces?q=K7",
  "search by words that nothing has": ({ number }) => `/api/pieces?q=zz${number}`,
  "list of all pieces": () => "/api/pieces",
  "list by kind and size": ({ size }) => `/api/pieces?kind=coat-liner&size=${encodeURIComponent(size)}`,
  "list of what is soiled": () => "/api/pieces?state=soiled",
  "list of what is on hold": () => "/api/pieces?state=on%20hold",
  "list of labels not yet read": () => "/api/pieces?state=not%20yet%20read",
  "list of what carries no tag": () => "/api/untagged-pieces",
  "list of what is ready to issue": () => "/api/pieces?state=ready",
  "list of what was not seen since a day": () => "/api/pieces?last-seen-before=2024-08-01",
  "page of a place": ({ rack }) => `/api/places/${rack}`,
  "page of a member": ({ member }) => `/api/members/${member}`,
  "list of members": () => "/api/members",
};

/** First pages of lists and searches over HTTP, one person asking at a time. The slowest kind decides. */
export async function measureLists(house: BenchHouse, secondsEach: number): Promise<Measured> {
  const samples = await samplesOf(house);
  const figures: Figure[] = [];
  for (const [what, question] of Object.entries(QUESTIONS)) {
    const paths = samples.map(question);
    const { waits } = await startAsking(house, { paths, how: { clients: 1 }, seconds: secondsEach }).result;
    const spread = sumUp(waits);
    figures.push({
      ...{ what: `${what}, p95`, value: spread.p95, unit: "ms", note: saySpread(spread) },
      target: { is: "at most", value: BUDGET_P95_MS },
    });
  }
  return { part: "lists and search, first page", figures };
}

async function samplesOf({ app }: BenchHouse): Promise<readonly Sample[]> {
  const { rows } =
    await sql<Sample>`select p.serial, t.number, p.size, m.id as member, m.number as member_number,
      q.name, r.id as rack, r.name as rack_name
    from (select * from piece where member is not null order by md5(id::text) limit 50) p
    join tag t on t.piece = p.id join member m on m.id = p.member join person q on q.id = m.id
    cross join lateral (select * from place where what = 'rack' order by md5(id::text || p.id::text) limit 1) r`.execute(
      app,
    );
  return rows;
}
