import { render } from "preact";

const root = document.getElementById("app");
if (root) render(<h1>Layertrail</h1>, root);
