/** What a map may hold, each bound stated once, all assumptions of this project: they keep the work bounded and refuse what is no field. */
export const MAP_LIMITS = {
  /** characters of a map file */ text: 10_000_000,
  /** features, tracks or routes of a map */ features: 1000,
  /** points of all of them */ points: 100_000,
  /** points of one field: the search for crossings grows with them */ fieldPoints: 10_000,
  /** elements of XML inside each other; a track needs four */ depth: 20,
  /** sentences about what was taken or left; the last one tells how many more there were */ told: 50,
  /** m from the first point of a field to any other */ reach: 50_000,
  /** degrees of latitude beyond which nothing is cut */ latitude: 85,
  /** m2; less is a sliver, not a field */ area: 100,
  /** m; rings that overlap by less touch: a boundary is not known better */ touch: 0.01,
  /** m; points this near the line between two others lie on one side with them: what the receiver of a phone gives, and less than a machine is wide */ straight: 5,
  /** of the length of a round that was driven: so much may be missing at its end */ gap: 0.05,
  /** m; and so much in any case */ shortGap: 30,
  /** points of a ring that a plan keeps as they are */ keptPoints: 200,
  /** m; of a longer ring, points nearer to a side than this are not kept */ kept: 0.5,
} as const;
