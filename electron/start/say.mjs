/** One line of what is going on. On stderr: stdout is for the answer, where a program gives one. */
export const say = (line) => console.error(`· ${line}`);

/** Says what is wrong and what to do, and stops. */
export const stop = (...lines) => {
  console.error(`\n${lines.join('\n')}\n`);
  process.exit(1);
};
