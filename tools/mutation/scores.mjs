/**
 * @typedef {{ killed: number, survived: number, uncovered: number, score: number }} Score
 * @typedef {{ files: Record<string, { mutants: readonly { status: string }[] }> }} Report
 */

/**
 * Counts a report: a mutant is killed when a test fails or never ends, survives when all tests that reach it pass, and is
 * uncovered when none does. The score is the killed over all three, in per cent; what does not compile or is ignored counts
 * nowhere.
 *
 * @param {Report} report
 */
export function scoresOf(report) {
  /** @param {readonly { status: string }[]} mutants */
  const count = (mutants) => {
    /** @param {readonly string[]} states */
    const of = (...states) => mutants.filter(({ status }) => states.includes(status)).length;
    const killed = of('Killed', 'Timeout');
    const survived = of('Survived');
    const uncovered = of('NoCoverage');
    const score = (100 * killed) / Math.max(1, killed + survived + uncovered);
    return { killed, survived, uncovered, score };
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
  const line = (name, { killed, survived, uncovered, score }) =>
    `| ${name} | ${killed} | ${survived} | ${uncovered} | ${score.toFixed(1)} |`;
  return [
    `| ${room} | killed | survived | not reached | score in % |`,
    '| --- | --- | --- | --- | --- |',
    ...files.map((file) => line(file.name, file)),
    line('all', total),
  ].join('\n');
}
