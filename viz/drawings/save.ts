/** A picture taken off the page: its shapes with the looks that the page gives them, on paper of its own, under its title. */

/** Looks that a shape keeps, and what each is where nobody says anything. */
const LOOKS = {
  fill: "rgb(0, 0, 0)", stroke: "none", "stroke-width": "1px", "stroke-dasharray": "none", "stroke-linejoin": "miter", "stroke-linecap": "butt", opacity: "1",
  "fill-opacity": "1", "paint-order": "normal", "text-anchor": "start", "font-size": "", "font-weight": "400", "font-variant-numeric": "normal",
} as const;

/** What is there for the pointer only, or for as long as one points. */
const PASSING = ".hit, .hit-line, .cursor-second";

/** px around the picture, and for its title and the plan's name above it. */
const EDGE = 16;
const HEAD = 52;

const SVG = "http://www.w3.org/2000/svg";

/** The picture as the text of an SVG file that needs no style sheet. Its font is named and not in it. */
export function drawnAlone(picture: SVGSVGElement, title: string, plan: string): { readonly text: string; readonly width: number; readonly height: number } {
  const { width, height } = picture.viewBox.baseVal;
  const page = getComputedStyle(document.documentElement);
  const [ink, second] = [page.getPropertyValue("--ink"), page.getPropertyValue("--ink-second")];
  const whole = document.createElementNS(SVG, "svg");
  const size = { width: width + 2 * EDGE, height: height + HEAD + EDGE };
  set(whole, { width: size.width, height: size.height, viewBox: `0 0 ${size.width} ${size.height}`, "font-family": getComputedStyle(picture).fontFamily });
  const name = whole.appendChild(document.createElementNS(SVG, "title"));
  name.textContent = `${title}. ${plan}`;
  const described = whole.appendChild(document.createElementNS(SVG, "desc"));
  described.textContent = picture.getAttribute("aria-label");
  const defs = whole.appendChild(document.createElementNS(SVG, "defs"));
  set(whole.appendChild(document.createElementNS(SVG, "rect")), { width: size.width, height: size.height, fill: page.backgroundColor });
  writeText(whole, title, { x: EDGE, y: 22, "font-size": 16, "font-weight": 600, fill: ink });
  writeText(whole, plan, { x: EDGE, y: 40, "font-size": 14, fill: second });

  const drawn = whole.appendChild(document.createElementNS(SVG, "g"));
  set(drawn, { transform: `translate(${EDGE},${HEAD})` });
  for (const child of picture.children) drawn.append(withLooks(child));
  const wanted = new Set([...new XMLSerializer().serializeToString(drawn).matchAll(/url\((?:&quot;|"|')?#([\w-]+)/g)].map(([, id]) => id!));
  for (const id of wanted) {
    const pattern = document.getElementById(id);
    if (pattern) defs.append(withLooks(pattern, id));
  }
  return { text: new XMLSerializer().serializeToString(whole), ...size };
}

/** A copy of an element and all in it, looks written out as attributes, names of the page's own left out. */
function withLooks(element: Element, id?: string): Element {
  const copy = element.cloneNode(true) as Element;
  const from = [element, ...element.querySelectorAll("*")];
  const to = [copy, ...copy.querySelectorAll("*")];
  to.forEach((each, i) => {
    const looks = getComputedStyle(from[i]!);
    for (const [look, usual] of Object.entries(LOOKS)) {
      const value = looks.getPropertyValue(look).replaceAll("\"", "'");
      if (value !== usual && !(look === "font-size" && !/^(?:text|tspan)$/.test(each.tagName))) each.setAttribute(look, value);
    }
    for (const attribute of ["class", "style", "id", "data-machine", "tabindex"]) each.removeAttribute(attribute);
  });
  to.forEach((each, i) => { if (from[i]!.matches(PASSING)) each.remove(); });
  if (id !== undefined) copy.id = id;
  return copy;
}

function set(element: Element, attributes: Readonly<Record<string, string | number>>): void {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
}

function writeText(whole: Element, text: string, attributes: Readonly<Record<string, string | number>>): void {
  const element = whole.appendChild(document.createElementNS(SVG, "text"));
  set(element, attributes);
  element.textContent = text;
}

/** px of the saved image for each px of the picture */
const TWICE = 2;

/** The same as pixels. Fonts that the page loaded are not in an image: letters come out in the system's own where the named font is not installed. */
export async function asPixels({ text, width, height }: ReturnType<typeof drawnAlone>): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = Math.ceil(width * TWICE);
    canvas.height = Math.ceil(height * TWICE);
    canvas.getContext("2d")!.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((done, fail) => { canvas.toBlob((blob) => (blob ? done(blob) : fail(new Error("The browser made no image of the picture."))), "image/png"); });
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** ms after which the browser has taken up what it was given to save. */
const TAKEN = 10_000;

/** Hands something to the browser to be saved under a name. */
export function saveAs(name: string, what: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(what);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), TAKEN);
}
