export const workCentres = [
  'office',
  'bench',
  'saw',
  'press',
  'filling',
  'oven',
  'welding',
  'inspection',
  'toolmaking',
] as const

/** Where in the shop an operation is done; each has its own labour rate. */
export type WorkCentre = (typeof workCentres)[number]

/** The plain name of each work centre. */
export const workCentreNames: Readonly<Record<WorkCentre, string>> = {
  office: 'Office',
  bench: 'Bench',
  saw: 'Saw',
  press: 'Press',
  filling: 'Filling and melt-out',
  oven: 'Oven',
  welding: 'Welding',
  inspection: 'Inspection',
  toolmaking: 'Tool making',
}
