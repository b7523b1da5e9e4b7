import { render } from "preact";

const root = document.getElementById("page");
if (root) render(<main />, root);
