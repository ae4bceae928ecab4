/** Printed figures, each beside its source, to half a unit in their last printed digit. */
import { describe, expect, it } from "vitest";
import { acresPerHour, areaRate } from "../../sim/forage/capacity.ts";
import { effluent } from "../../sim/forage/effluent.ts";
import { leastAdvance, volumePerDay } from "../../sim/forage/feedout.ts";
import { fuelByMass, fuelByPower } from "../../sim/forage/fuel.ts";
import { loadToLoad, looseDryDensity, looseDrySd } from "../../sim/forage/load.ts";
import { lossAtDensity, lossTable } from "../../sim/forage/losses.ts";
import { dryDensityOf, densityUS, explainedShare, heaviestFirst, packingEffort, packingFactorUS, surveyRange } from "../../sim/forage/packing.ts";
import { poreSpace, targets } from "../../sim/forage/porespace.ts";
import { measuredProfile } from "../../sim/forage/profile.ts";
import { circuity, roadSpeeds } from "../../sim/forage/road.ts";
import { densityForChance, residualSd, surveySd } from "../../sim/forage/scatter.ts";
import { massRules, rulesOfThumb } from "../../sim/forage/thumb.ts";
import { topLayerLoss, wholeLoss } from "../../sim/forage/toplayer.ts";
import { FOOT, INCH, LB_PER_FT3, POUND, US_TON } from "../../sim/forage/us.ts";
import { chopLengthWindow, daysToReach, dryDown } from "../../sim/forage/window.ts";
import { toSI } from "../../sim/scenario/units.ts";
import { expectPrinted } from "./printed.ts";

describe("Packing relation, Muck & Holmes 2000, Applied Engineering in Agriculture 16(6):613-619 (coefficients from memory; rows computed from the equation)", () => {
  const rows = [
    { massLb: 40000, layerIn: 6, tractors: 1, dryMatter: 0.35, tonPerH: 50, depthFt: 12, factor: "557.8", lbPerFt3: "16.82", kgPerM3: "269.5" },
    { massLb: 40000, layerIn: 6, tractors: 2, dryMatter: 0.35, tonPerH: 100, depthFt: 12, factor: "557.8", lbPerFt3: "16.82", kgPerM3: "269.5" },
    { massLb: 40000, layerIn: 12, tractors: 2, dryMatter: 0.35, tonPerH: 100, depthFt: 12, factor: "278.9", lbPerFt3: "12.58", kgPerM3: "201.5" },
  ];
  it.each(rows)("gives $lbPerFt3 lb DM/ft3 for $tractors tractors at $tonPerH ton/h and a $layerIn in layer, in US units and in SI", (row) => {
    const factor = packingFactorUS(row.massLb, row.layerIn, row.dryMatter, row.tractors, row.tonPerH);
    expectPrinted(factor, row.factor);
    expectPrinted(densityUS(factor, row.depthFt), row.lbPerFt3);

    const masses = Array.from({ length: row.tractors }, () => row.massLb * POUND);
    const oneHour = masses.map(() => 3600);
    const effort = packingEffort(masses, oneHour, heaviestFirst(masses));
    expectPrinted(dryDensityOf(effort, row.tonPerH * US_TON, row.dryMatter, row.layerIn * INCH, row.depthFt * FOOT), row.kgPerM3);
  });
  it("was drawn from 175 bunkers of 106 to 434 kg DM/m3, of whose variation the packing factor explained 18.2 % (abstract)", () => {
    expect(surveyRange.value).toEqual([106, 434]);
    expect(explainedShare.value).toBe(0.182);
  });
  it("leaves a scatter of about 55 kg DM/m3 for haycrop and 42 for corn, from 3.8 and 2.9 lb DM/ft3 in the survey", () => {
    expect([surveySd.haycrop.value, surveySd.corn.value]).toEqual([3.8, 2.9]);
    expectPrinted(residualSd.haycrop.value, "55");
    expectPrinted(residualSd.corn.value, "42");
  });
  it("asks for about 294 kg DM/m3 when 240 has to be reached nine times in ten with corn", () => {
    expectPrinted(densityForChance(240, 0.9, "corn"), "294");
  });
});

describe("Pore space, Hafner, Montes & Rotz 2012, Atmospheric Environment 54:134-140; targets of Undersander 2009", () => {
  it.each([[705, 0.35, "0.388"], [705, 0.4, "0.401"], [600, 0.3, "0.467"]] as const)("%d kg/m3 fresh at %d dry matter leaves %s of the volume to gas", (wet, dryMatter, printed) => {
    expectPrinted(poreSpace(wet * dryMatter, wet, dryMatter), printed);
  });
  it("targets are 15 lb DM/ft3, 44 lb/ft3 as fed and 0.40", () => {
    expectPrinted(targets.dryDensity.value / LB_PER_FT3, "15");
    expectPrinted(targets.wetDensity.value / LB_PER_FT3, "44");
    expect(targets.poreSpace.value).toBe(0.4);
  });
});

describe("Losses", () => {
  it("Ruppel 1992, alfalfa, 180 days, as tabulated in secondary sources: the line gives every row of the table", () => {
    const printed = ["20.2", "16.8", "15.9", "15.1", "13.4", "10.0"];
    expect(lossTable.value.map(([density]) => density)).toEqual([10, 14, 15, 16, 18, 22]);
    lossTable.value.forEach(([density, percent], row) => {
      expect(percent).toBe(Number(printed[row]));
      expectPrinted(100 * lossAtDensity(density * LB_PER_FT3).high, printed[row]!);
    });
  });
  it("Wilkinson & Fenlon, Grass and Forage Science, doi 10.1111/gfs.12087: the top layer loses 195 g/kg under plain film and 114 under a barrier", () => {
    expectPrinted(1000 * topLayerLoss.plain.value, "195");
    expectPrinted(1000 * topLayerLoss.barrier.value, "114");
    expect(topLayerLoss.plain.range).toEqual([0.1, 0.6]);
  });
  it("25-ton bunkers, six methods of covering: 12 % lost under weighted plastic, 34.2 % uncovered", () => {
    expect([wholeLoss.covered.value, wholeLoss.uncovered.value]).toEqual([0.12, 0.342]);
  });
  it.each([[0.15, "177"], [0.2, "73"], [0.25, "17"]] as const)("Bastiman 1976 (from memory): %d dry matter gives off %s L/t", (dryMatter, printed) => {
    expectPrinted(effluent(dryMatter), printed);
  });
});

describe("Field, road and load", () => {
  it.each([[40, 6, 0.7, "20.4"], [10, 5, 0.63, "3.8"], [30, 6, 0.6, "13.1"]] as const)(
    "Iowa State University Extension PM 696: %d ft at %d mph and %d efficiency covers %s acres an hour, in both systems of units", (widthFt, mph, efficiency, printed) => {
      expectPrinted(acresPerHour(widthFt, mph, efficiency), printed);
      expectPrinted((areaRate(widthFt * FOOT, toSI(mph, "mph", "speed"), efficiency) * 3600) / toSI(1, "acre", "area"), printed);
    });
  it("ASABE EP496.3 in Grisso, Virginia Cooperative Extension: 0.223 L an hour for each kW", () => {
    expectPrinted(fuelByPower(1, 3600), "0.223");
  });
  it("Newell 1980; O'Sullivan & Morrall 1996: roads are 1.2 times the straight line, up to 1.23", () => {
    expectPrinted(circuity.value, "1.2");
    expect(circuity.range).toEqual([1.2, 1.23]);
  });
  it("Manzone et al. 2020 drove maize silage on two trailers at 27.4 km/h; Manzone & Balsari 2015 convoys at 24 and lorries at 42", () => {
    expect(Object.values(roadSpeeds).map(({ value, unit }) => [value, unit])).toEqual([[27.4, "km/h"], [24, "km/h"], [42, "km/h"]]);
  });
  it("a time study of self-propelled forage harvesters, 2023: about 0.6 L of fuel a tonne", () => {
    expectPrinted(fuelByMass(1000), "0.6");
  });
  it("423 trailer loads of maize: the load-to-load variation of 3.7 % is 14 % of a variance of 11.2 squared about 112 kg DM/m3", () => {
    expectPrinted((100 * Math.sqrt(0.14) * looseDrySd.value) / looseDryDensity.value, "3.7");
    expectPrinted(100 * loadToLoad.value, "3.7");
  });
  it("the 800 lb rule wants 40,000 lb for 50 ton an hour (extension and trade press)", () => {
    const says = rulesOfThumb(40000 * POUND, (50 * US_TON) / 3600).find(({ rule }) => rule === "eightHundred")!;
    expectPrinted(says.massWanted / POUND, "40000");
    expectPrinted(massRules.eightHundred.value, "400");
  });
});

describe("Crop window and feed-out", () => {
  it("Lauer, Wisconsin Crop Manager: corn at half a point a day needs 6 days from 73 to 70 % moisture; counties ran from 0.24 to 0.97", () => {
    expectPrinted(daysToReach(0.73, 0.7), "6");
    expect(dryDown.range).toEqual([0.24, 0.97]);
  });
  it("common practice, no source: chopped 1/2 to 3/4 in long", () => {
    expectPrinted(1000 * chopLengthWindow.value[0], "12.7");
    expectPrinted(1000 * chopLengthWindow.value[1], "19.05");
  });
  it("Holmes, in Hay & Forage Grower: 3,000 lb DM a day at 14 lb/ft3 is 214.3 cubic feet a day", () => {
    expectPrinted(volumePerDay(3000 * POUND, 14 * LB_PER_FT3) / FOOT ** 3, "214.3");
  });
  it("German advisory table, 33 % DM: 500 cows at 20 kg fresh take 70 t a week, 92.1 m3 at 760 kg/m3", () => {
    const freshPerDay = 500 * 20;
    expectPrinted((7 * freshPerDay) / 1000, "70");
    expectPrinted(7 * volumePerDay(0.33 * freshPerDay, 0.33 * 760), "92.1");
  });
  it("the face moves on 15 cm a day in winter and 23 to 30 in summer (extension advice)", () => {
    expect([leastAdvance.winter.value, leastAdvance.summer.value, leastAdvance.summer.range]).toEqual([0.15, 0.23, [0.23, 0.3]]);
  });
  it("D'Amours & Savoie 2005, ASAE paper 051051: bottom 58 % over top, centre 9 % over wall, section means 206 to 354", () => {
    expect([measuredProfile.bottomOverTop.value, measuredProfile.centreOverWall.value, measuredProfile.sectionMeans.value]).toEqual([1.58, 1.09, [206, 354]]);
  });
});
