/** Puts each screen away from the bench together with what it asks of the server. */
import type { VNode } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import type { Role } from "../../server/domain/register/account.ts";
import type { PlaceFacts } from "../../server/domain/register/place.ts";
import type { MemberBrief, PlaceBrief } from "../../server/domain/scan-answer.ts";
import type { Client, CommandName } from "../api/client.ts";
import { newId } from "../api/uuid-v7.ts";
import type { MeOnWire } from "../api/wire.ts";
import { Notice } from "../look/notice.tsx";
import { Sheet } from "../look/page.tsx";
import type { Words } from "../look/words.ts";
import { load, loadList, loadWhole, symbolOf } from "./ask.ts";
import type { Clock } from "./bench/look-up-panel.tsx";
import { DescribeScreen } from "./describe-screen.tsx";
import { BagsScreen } from "./events/bags-screen.tsx";
import { ContaminantsScreen } from "./events/contaminants-screen.tsx";
import { EventScreen } from "./events/event-screen.tsx";
import { EventsScreen } from "./events/events-screen.tsx";
import { NewEventScreen } from "./events/new-event-screen.tsx";
import { FindScreen } from "./find-screen.tsx";
import { ImportScreen } from "./import/import-screen.tsx";
import { loadHolders } from "./load-holders.ts";
import { MachineScreen } from "./machines/machine-screen.tsx";
import { MachinesScreen } from "./machines/machines-screen.tsx";
import { MemberScreen } from "./member-screen.tsx";
import { MembersScreen } from "./members-screen.tsx";
import { ModelsScreen } from "./models-screen.tsx";
import { OwnScreen } from "./own-screen.tsx";
import { PartiesScreen } from "./parties-screen.tsx";
import { PeopleScreen } from "./people-screen.tsx";
import type { AppPlace } from "./place-in-app.ts";
import { PlaceScreen } from "./place-screen.tsx";
import { PlacesScreen } from "./places-screen.tsx";
import { PropertyScreen } from "./property-screen.tsx";
import type { FindQuery } from "./record/find-query.ts";
import { queryAddress, queryFromAddress } from "./record/find-query.ts";
import type { Frame } from "./record/frame.ts";
import { RegisterScreen } from "./register-screen.tsx";
import { SettingsScreen } from "./settings-screen.tsx";
import type { Asked } from "./sign-in-screen.tsx";
import { PrintCardsScreen } from "./tags/print-cards-screen.tsx";
import { PrintTagsScreen } from "./tags/print-tags-screen.tsx";
import { NewTraceScreen } from "./traces/new-trace-screen.tsx";
import { TraceScreen } from "./traces/trace-screen.tsx";
import { TracesScreen } from "./traces/traces-screen.tsx";
import { TrailScreen } from "./trail-screen.tsx";

export interface AppScreensProps {
  readonly client: Client;
  readonly me: MeOnWire;
  readonly place: AppPlace;
  readonly frame: Frame;
  readonly say: Words;
  readonly clock: Clock;
  readonly places: readonly PlaceBrief[];
  /** Told when places or members changed, which other screens choose from. */
  readonly onShared: () => void;
}

const BENCH: readonly Role[] = ["technician", "inspector", "program manager"];

export function AppScreens(props: AppScreensProps): VNode {
  const { client, me, place, frame, say, clock } = props;
  const shared = { say, clock, frame };
  const mayBench = BENCH.includes(me.role);
  const manages = me.role === "program manager";
  const send = useMemo(() => sender(client, props.onShared), [client]);
  switch (place.screen) {
    case "trail":
      return (
        <TrailScreen
          key={place.piece}
          {...shared}
          load={(knownAt) =>
            load(
              client,
              "/api/pieces/{piece}/trail",
              { piece: place.piece },
              knownAt === undefined ? {} : { "known-at": String(knownAt) },
            )
          }
          symbolOf={(number) => symbolOf(client, number)}
          correcting={mayBench ? { send, holders: () => loadHolders(client) } : undefined}
        />
      );
    case "place": {
      const id = place.place;
      return (
        <PlaceScreen
          key={id}
          {...shared}
          places={props.places}
          load={(...then) => load(client, "/api/places/{place}", { place: id }, asThen(...then))}
          describe={mayBench ? (facts) => send("namePlace", { id, ...facts }) : undefined}
          close={manages ? () => send("closePlace", { place: id }) : undefined}
        />
      );
    }
    case "places":
      return (
        <PlacesScreen
          {...shared}
          load={() => listed(load(client, "/api/places", {}, {}), "places")}
          namePlace={
            mayBench ? (facts: PlaceFacts) => send("namePlace", { id: newId(), ...facts }) : undefined
          }
        />
      );
    case "member": {
      const { member } = place;
      return (
        <MemberScreen
          key={member}
          {...shared}
          load={(...then) => load(client, "/api/members/{member}", { member }, asThen(...then))}
          left={manages ? (on) => send("memberLeft", { member, on }) : undefined}
        />
      );
    }
    case "members":
      return (
        <MembersScreen
          {...shared}
          places={props.places}
          load={() => loadWhole<MemberBrief>(client, "members")}
          addMember={
            manages ? (draft) => send("listMembers", { members: [{ id: newId(), ...draft }] }) : undefined
          }
        />
      );
    case "machines":
      return <MachinesScreen {...shared} client={client} me={me} places={props.places} />;
    case "property": {
      const piece = new URLSearchParams(location.search).get("piece") ?? undefined;
      return <PropertyScreen key={piece} {...shared} client={client} me={me} piece={piece} />;
    }
    case "machine": {
      const foundAt = new URLSearchParams(location.search).get("found-faulty-at") ?? undefined;
      const { machine } = place;
      return (
        <MachineScreen
          key={machine}
          {...shared}
          client={client}
          me={me}
          places={props.places}
          machine={machine}
          foundAt={foundAt}
        />
      );
    }
    case "parties":
      return <PartiesScreen {...shared} client={client} me={me} onChanged={props.onShared} />;
    case "events":
      return <EventsScreen {...shared} client={client} me={me} />;
    case "new event":
      return <NewEventScreen {...shared} client={client} me={me} />;
    case "event":
      return <EventScreen key={place.event} {...shared} client={client} me={me} event={place.event} />;
    case "traces":
      return <TracesScreen {...shared} client={client} me={me} />;
    case "new trace":
      return <NewTraceScreen {...shared} client={client} me={me} />;
    case "trace":
      return <TraceScreen key={place.trace} {...shared} client={client} me={me} trace={place.trace} />;
    case "bags":
      return <BagsScreen {...shared} client={client} me={me} />;
    case "contaminants":
      return <ContaminantsScreen {...shared} client={client} me={me} />;
    case "find":
      return <Find {...props} />;
    case "register":
      return <RegisterScreen {...shared} client={client} me={me} />;
    case "describe":
      return <DescribeScreen key={place.piece} {...shared} client={client} me={me} piece={place.piece} />;
    case "import":
      return <ImportScreen {...shared} client={client} me={me} />;
    case "tags":
      return <PrintTagsScreen {...shared} client={client} me={me} />;
    case "cards":
      return <PrintCardsScreen {...shared} client={client} me={me} />;
    case "models":
      return <ModelsScreen {...shared} client={client} me={me} />;
    case "people":
      return <PeopleScreen {...shared} client={client} me={me} />;
    case "settings":
      return <SettingsScreen {...shared} client={client} me={me} onChanged={props.onShared} />;
    case "own":
      return <OwnScreen {...shared} client={client} me={me} />;
    default:
      return frame({
        verb: say.nowhere,
        second: say.nowhereNext,
        children: (
          <Sheet>
            <Notice kind="empty" head={say.nowhere}>
              {say.nowhereNext}
            </Notice>
          </Sheet>
        ),
      });
  }
}

interface Lists {
  readonly members: readonly MemberBrief[];
  readonly kinds: readonly { readonly code: string; readonly name: string }[];
  readonly models: readonly { readonly id: string; readonly maker: string; readonly name: string }[];
}

function Find(props: AppScreensProps) {
  const { client } = props;
  const [lists, setLists] = useState<Lists>({ members: [], kinds: [], models: [] });
  useEffect(() => {
    void Promise.all([
      loadList<MemberBrief>(client, "members"),
      loadList<Lists["kinds"][number]>(client, "kinds"),
      loadList<Lists["models"][number]>(client, "models"),
    ]).then(([members, kinds, models]) => setLists({ members, kinds, models }));
  }, []);
  return (
    <FindScreen
      say={props.say}
      clock={props.clock}
      frame={props.frame}
      places={props.places}
      {...lists}
      query={queryFromAddress(location.search)}
      onSearched={(query) => history.replaceState(null, "", `/find${queryAddress(query)}`)}
      find={(query, after) =>
        load(client, "/api/pieces", {}, { ...asQuery(query), ...(after ? { after } : {}) })
      }
    />
  );
}

/** Asks for a day, a position of the record, and where the page before ended; what is not given is left out. */
function asThen(on?: string, knownAt?: number, after?: string): Record<string, string> {
  return {
    ...(on ? { on } : {}),
    ...(knownAt ? { "known-at": String(knownAt) } : {}),
    ...(after ? { after } : {}),
  };
}

function asQuery(query: FindQuery): Record<string, string> {
  const { lastSeenBefore, ...rest } = query;
  const given = Object.entries({ ...rest, "last-seen-before": lastSeenBefore });
  return Object.fromEntries(given.filter(([, value]) => value.trim() !== ""));
}

/** Takes the list out of an answer that names it. */
async function listed<Value>(
  asked: Promise<Asked<Readonly<Record<string, Value>>>>,
  name: string,
): Promise<Asked<Value>> {
  const answer = await asked;
  return "answer" in answer ? { answer: answer.answer[name] as Value } : answer;
}

function sender(client: Client, onWritten: () => void) {
  return async (command: CommandName, body: object): Promise<Asked<unknown>> => {
    const sent = await client.sendAct(client.newAct(command, body as never));
    if (!sent.ok) return { problem: sent.problem };
    onWritten();
    return { answer: sent.answer };
  };
}
