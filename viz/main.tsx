/** Puts the page on the screen and asks for the first answer. */
import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import { render } from "preact";
import { keepFocus } from "./focus.ts";
import { Page } from "./page/Page.tsx";
import { open } from "./state.ts";
import "./state/memory.ts";
import "./paper.css";
import "./theme.css";
import "./drawings.css";
import "./print.css";

const page = document.getElementById("page")!;
render(<Page />, page);
keepFocus(page);
void open();
