/**
 * @typedef {{ killed: number, unloaded: number, survived: number, uncovered: number, score: number }} Score
 * @typedef {{ files: Record<string, { mutants: readonly { status: string }[] }> }} Report
 */

/**
 * Counts a report: a mutant is killed when a test fails or never ends, unloaded when the tests cannot even be loaded with it,
 * survives when all tests that reach it pass, and is uncovered when none does. The score is the share of the first two, in per
 * cent; what is ignored counts nowhere.
 *
 * @param {Report} report
 */
export function scoresOf(report) {
  /** @param {readonly { status: string }[]} mutants */
  const count = (mutants) => {
    /** @param {readonly string[]} states */
    const of = (...states) => mutants.filter(({ status }) => states.includes(status)).length;
    const killed = of('Killed', 'Timeout');
    const unloaded = of('RuntimeError');
    const survived = of('Survived');
    const uncovered = of('NoCoverage');
    const noticed = killed + unloaded;
    const score = (100 * noticed) / Math.max(1, noticed + survived + uncovered);
    return { killed, unloaded, survived, uncovered, score };
  };
  const files = Object.entries(report.files).map(([name, { mutants }]) => ({
    name: name.replace(/.*\//, ''),
    ...count(mutants),
  }));
  return { files, room: count(Object.values(report.files).flatMap(({ mutants }) => mutants)) };
}

/**
 * The scores as a Markdown table.
 *
 * @param {string} room
 * @param {ReturnType<typeof scoresOf>} scores
 */
export function tableOf(room, { files, room: total }) {
  /**
   * @param {string} name
   * @param {Score} score
   */
  const line = (name, { killed, unloaded, survived, uncovered, score }) =>
    `| ${name} | ${killed} | ${unloaded} | ${survived} | ${uncovered} | ${score.toFixed(1)} |`;
  return [
    `| ${room} | killed | not loaded | survived | not reached | score in % |`,
    '| --- | --: | --: | --: | --: | --: |',
    ...files.map((file) => line(file.name, file)),
    line('all', total),
  ].join('\n');
}
