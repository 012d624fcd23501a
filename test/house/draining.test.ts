import net from "node:net";
import { expect, test } from "vitest";
import { parseConfig } from "../../server/config.ts";
import { listen } from "../../server/listen.ts";
import { getStatus } from "../kit/running-house.ts";

test("a request that runs when the server is told to end gets its answer, and no new one is taken", async () => {
  const running = Promise.withResolvers<void>();
  const release = Promise.withResolvers<void>();
  const server = await listen(parseConfig({ PORT: "0" }), async () => {
    running.resolve();
    await release.promise;
    return new Response("written");
  });
  const [address = ""] = server.addresses;
  const answer = getStatus(address);
  await running.promise;
  const drained = server.drain();
  expect(await getStatus(address)).toBe(0);
  release.resolve();
  expect(await answer).toBe(200);
  await drained;
});

test("a connection that is only kept open does not hold the server up", async () => {
  const server = await listen(parseConfig({ PORT: "0" }), () => new Response("here"));
  const { port } = new URL(server.addresses[0] ?? "");
  const socket = net.connect(Number(port), "127.0.0.1");
  socket.write("GET / HTTP/1.1\r\nHost: localhost\r\nConnection: keep-alive\r\n\r\n");
  await new Promise((resolve) => socket.once("data", resolve));
  const begin = performance.now();
  await server.drain();
  expect(performance.now() - begin).toBeLessThan(2_000);
  socket.destroy();
});

test("an address that this machine does not have is refused in one line", async () => {
  const config = { ...parseConfig({ PORT: "0" }), host: "192.0.2.1" };
  await expect(listen(config, () => new Response("here"))).rejects.toThrow(
    "HOST=192.0.2.1 is no address of this machine.",
  );
});
