// The records of jigs/page/contract*.py as types. Lengths are mm, angles radians.

/** @typedef {{severity: string, code: string, text: string, key: string, line: number}} Said */
/** @typedef {{id: string, role: "finished"|"allowance"|"blank"|"core"|"knob", points: number[][]}} Loop */
/** @typedef {{roles: string[], form: boolean, centre: [number, number], grow: number, rise: number, out: [number, number][],
 *   up: [number, number][], shifts: [number, number, number][]}} Bend */
/** @typedef {{key: string, place: number[], label: string, along: [number, number], rate: number, value: number,
 *   listed: number[], bend: Bend|null}} Way */
/** @typedef {{id: string, label: string, x: number, y: number, ways: Way[]}} Handle */
/** @typedef {{loops: Loop[], handles: Handle[], without: string[]}} SectionView */
/** @typedef {{radius: number[], height: number[], out: number[], up: number[], v: number[], over: boolean}} FormView */
/** @typedef {{name: string, top: number, foot: number}} Stretch */
/** @typedef {{number: number, low: number, high: number, segments: number, first: number, woods: string[],
 *   paint: boolean, plug: number}} RingView */
/** @typedef {{name: string, colour: string, count: number}} WoodView */
/** @typedef {{png: string, width: number, height: number, around: number, along: number, centre: number,
 *   stretches: Stretch[], rings: RingView[], woods: WoodView[]}} PatternView */
/** @typedef {{pattern: PatternView, said: string[]}} Wrong */
/** @typedef {{form: FormView, section: SectionView, pattern: PatternView}} Drawing */
/** @typedef {{id: string, label: string, value: number, limit: number, sense: "at least"|"at most", ok: boolean,
 *   value_text: string, limit_text: string, key: string, at: [number, number]|null, stops: boolean}} Verdict */
/** @typedef {{drawing: Drawing|null, verdicts: Verdict[], findings: Said[]}} Fast */
/** @typedef {{key: string, label: string, kind: string, help: string, group: string, text: string, without: string,
 *   least: number, most: number, even: boolean, choices: string[], line: number}} Field */
/** @typedef {{key: string, value: unknown, line: string}} RemedyLine */
/** @typedef {{changes: RemedyLine[], measured: boolean}} Remedy */
/** @typedef {{id: string, title: string, columns: string[], rows: string[][]}} Sheet */
/** @typedef {{code: string, name: string, quantity: number, process: string, material: string, purpose: string,
 *   hours: number|null}} Jig */
/** @typedef {{id: string, head: string, says: string[]}} Advice */
/** @typedef {{advice: Advice[], wrong: string[]}} Measured */
/** @typedef {{state: "working"|"done"|"refused"|"failed", findings: Said[], jigs: Jig[], tables: Sheet[],
 *   remedies: Remedy[]|null, measured: Measured|null}} Slow */
/** The work, as jigs/render/book/content.py has it.
 * @typedef {{label: string, value: string}} Line */
/** @typedef {{id: string, label: string, planned: string, count: number,
 *   least: "any"|"nothing"|"more than nothing"}} Box */
/** @typedef {{id: string, number: number, does: string, place: string, made: string[], how: string[], settings: Line[],
 *   known: Line[], jigs: {code: string, name: string, count: number, for_what: string, notes: string[], picture: string}[],
 *   trial: string, checks: {how: string, sizes: Line[], if_not: string}[], cautions: string[], reminder: string,
 *   readings: Box[], picture: string, drawings: string[]}} Step */
/** @typedef {{id: string, title: string, steps: Step[]}} Chapter */
/** @typedef {{job: string, cautions: string[], chapters: Chapter[], blank: string}} Steps */
/** @typedef {{head: string, lines: string[]}} Listed */
/** @typedef {{state: "none"|"working"|"made"|"refused"|"stopped"|"failed", folder: string, done: number, of: number,
 *   what: string, files: number, first: string, lists: Listed[], findings: Said[], stale: boolean}} Make */
/** @typedef {{cells: string[], changes: RemedyLine[]}} Choice */
/** @typedef {{state: "none"|"working"|"done"|"refused"|"stopped"|"failed", labels: string[], own: string[]|null,
 *   best: Choice[], tried: string, findings: Said[]}} Choices */
/** @typedef {{tick: number, revision: number, file: string, unit: string, title: string, kind: string, text: string,
 *   disk: "same"|"gone", can_undo: boolean, can_redo: boolean, news: string, fast: Fast, make: Make, lean: boolean, solids: boolean,
 *   pieces: Record<string, number>, slow: Slow,
 *   fields: Field[], palette: WoodView[], choices: Choices, ways: {id: string, label: string}[],
 *   layups: string[], boards: string,
 *   readings: Record<string, string[]>}} State */
/** A change: `text` as typed, `mm` from a handle (with `place` in a list), `list` of mm, or `value` as TOML reads it.
 * @typedef {{key: string, text?: string, mm?: number, place?: number[], list?: number[], value?: unknown}} Change */

export {};
