/** A small sound scenario for the server's tests: one field, one chopper, three trucks, a bunker. Invented. */
export const meadow = {
  name: "Test meadow",
  crop: { kind: "corn", dryMatter: "34 %" },
  fields: [{ name: "Strip", area: "8 ha", yield: "45 t/ha", distance: "2 km" }],
  choppers: [{ name: "Chopper", width: "6 m", speed: "6 km/h", throughput: "160 t/h" }],
  trucks: [{ kind: "Tipper", count: 3, load: "16 t", loaded: "28 km/h", empty: "34 km/h", tip: "4 min" }],
  storage: [{ name: "Bunker", form: "bunker", width: "12 m", length: "45 m", height: "3.2 m" }],
  packing: { tractors: [{ name: "Blade", mass: "14 t", spreads: "220 t/h" }, { name: "Roller", mass: "16 t" }], layer: "15 cm" },
  variation: "typical",
  seed: 1,
};

/** The same with a crew that holds for a density it never reaches: its day has no end. */
export const endlessMeadow = {
  ...meadow, packing: { tractors: [{ name: "Light blade", mass: "1 t", spreads: "220 t/h", rolling: "5 %" }], whenBehind: "hold" }, variation: "none",
};

/** The meadow as the text of a scenario file. */
export const meadowYaml = `# A meadow for tests:
# it keeps pace.

name: ${meadow.name}
crop: {kind: corn, dryMatter: 34 %}
fields:
  - {name: Strip, area: 8 ha, yield: 45 t/ha, distance: 2 km}
choppers:
  - {name: Chopper, width: 6 m, speed: 6 km/h, throughput: 160 t/h}
trucks:
  - {kind: Tipper, count: 3, load: 16 t, loaded: 28 km/h, empty: 34 km/h, tip: 4 min}
storage:
  - {name: Bunker, form: bunker, width: 12 m, length: 45 m, height: 3.2 m}
packing:
  tractors:
    - {name: Blade, mass: 14 t, spreads: 220 t/h}
    - {name: Roller, mass: 16 t}
  layer: 15 cm
variation: typical
seed: 1
`;
