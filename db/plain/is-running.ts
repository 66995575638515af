/** Whether a program of that number is there; it may be somebody else's. */
export const isRunning = (pid: number): boolean => {
  try {
    // Signal 0 only asks.
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
};
