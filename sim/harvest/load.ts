/** What lies in a truck, on the apron or in a lift: fresh kg and the dry matter in it. */
export interface Load {
  readonly mass: number;
  readonly dryMass: number;
}
