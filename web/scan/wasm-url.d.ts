/** Vite gives the address under which it serves the file. */
declare module "*.wasm?url" {
  const url: string;
  // biome-ignore lint/style/noDefaultExport: this is the shape in which Vite gives it
  export default url;
}
